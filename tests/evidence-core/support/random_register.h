#pragma once

#include "evidence-core/record/kind.h"
#include "evidence-core/record/register.h"

#include <rapidcheck.h>

#include <array>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// A register with one record of every kind, every key drawn at random, every id referring to the
/// one record of its kind. For use inside `rc::check`.
namespace test {

namespace record = evidence::record;

inline std::string drawText() {
    static const std::vector<std::string> kPieces{
        "a",  "D1", " ",      "\"",     "\\",     "\n",         "\t", "\x01", "=1+1", "<b>",
        "/~", "é",  "\u202e", "5'-3½″", "0.5e-3", "\U0001F600", "{",  "}",    "%25",  "'; --"};
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(kPieces));
    std::string text;
    for (const auto& piece : pieces) text += piece;
    return text;
}

inline double drawNumber() {
    return *rc::gen::oneOf(
        rc::gen::map(rc::gen::inRange(-100000, 100000), [](int n) { return n / 64.0; }),
        rc::gen::map(rc::gen::inRange(-100000, 100000), [](int n) { return n * 1e-13; }),
        rc::gen::map(rc::gen::arbitrary<double>(),
                     [](double d) { return d - d == 0.0 ? d : 0.25; }));
}

template <class Tag>
void draw(record::Id<Tag>& id) {
    id.text = std::string(record::nameOf(record::KindOf<record::Id<Tag>>)) + " 1";
}
inline void draw(record::AnyId& id) {
    id.text = "dimension 1";
}
inline void draw(std::string& text) {
    text = drawText();
}
inline void draw(double& number) {
    number = drawNumber();
}
inline void draw(bool& truth) {
    truth = *rc::gen::arbitrary<bool>();
}
inline void draw(int& number) {
    number = *rc::gen::arbitrary<int>();
}
inline void draw(std::int64_t& number) {
    number = *rc::gen::inRange<std::int64_t>(-(std::int64_t{1} << 53), std::int64_t{1} << 53);
}
template <record::Named E>
void draw(E& value) {
    value = (*rc::gen::elementOf(std::vector<record::NameList<E>>(record::Names<E>::all.begin(),
                                                                  record::Names<E>::all.end())))
                .second;
}
inline void draw(record::PixelPoint& point) {
    point = {drawNumber(), drawNumber()};
}
inline void draw(record::Written& value) {
    static const std::vector<std::string> kLiterals{"2.50", "0.10", "1e-3", "-7", "14.250", "1E+2"};
    if (*rc::gen::arbitrary<bool>()) {
        value = drawText();
    } else {
        const auto literal = *rc::gen::elementOf(kLiterals);
        value = record::Number{std::stod(literal), literal};
    }
}
inline void draw(std::map<std::string, double>& values) {
    const int count = *rc::gen::inRange(0, 3);
    for (int i = 0; i < count; ++i) values[drawText() + std::to_string(i)] = drawNumber();
}

inline void draw(record::RelationUse& use);
template <record::Described T>
void draw(T& value);
template <class T>
void draw(std::vector<T>& list);
template <class T, std::size_t N>
void draw(std::array<T, N>& list) {
    for (auto& item : list) draw(item);
}
template <class T>
void draw(std::optional<T>& value) {
    if (*rc::gen::arbitrary<bool>()) draw(value.emplace());
}
inline void draw(record::RelationUse& use) {
    if (*rc::gen::arbitrary<bool>()) {
        record::Infer infer;
        draw(infer.infer);
        use = infer;
    } else {
        record::Use plain{};
        draw(plain);
        use = plain;
    }
}
template <class T>
void draw(std::vector<T>& list) {
    // Two files would share the one id there is.
    const int most = std::is_same_v<T, record::File> ? 2 : 4;
    list.resize(static_cast<std::size_t>(*rc::gen::inRange(0, most)));
    for (auto& item : list) draw(item);
}
template <record::Described T>
void draw(T& value) {
    record::forEachField(value, [](std::string_view, auto& member) { draw(member); });
}

/// Formulas and codes are fixed: a formula that names nothing would be no formula.
inline record::Register drawRegister() {
    record::Register reg;
    draw(reg.archive);
    record::forEachTable(reg, [](std::string_view, auto& table) { draw(table.emplace_back()); });
    auto& files = reg.sources[0].files;
    if (files.empty()) draw(files.emplace_back());
    files[0].sha256.reset();
    reg.dimensions[0].code = "D1";
    reg.relations[0].formula = "D1 = 2*D1 + 3 in";
    return reg;
}

}  // namespace test

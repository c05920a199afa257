#include "evidence-core/exchange/json_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace evidence::exchange {

namespace {

struct LineColumn {
    std::size_t line = 1;
    std::size_t column = 1;
};

LineColumn lineColumnAt(std::string_view text, std::size_t byte) {
    LineColumn at;
    for (const char c : text.substr(0, std::min(byte, text.size()))) {
        if (c == '\n') {
            ++at.line;
            at.column = 1;
        } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            ++at.column;
        }
    }
    return at;
}

/// Builds the value while the parser reads; refuses by returning false with `refusal` set.
class Builder {
  public:
    Builder(std::string_view text, JsonBounds bounds) : m_text(text), m_bounds(bounds) {}

    bool null() { return take(Json{}); }
    bool boolean(bool value) { return take(Json{value}); }
    bool number_integer(std::int64_t value) { return take(Json{JsonNumber::of(value)}); }
    bool number_unsigned(std::uint64_t value) {
        return take(Json{JsonNumber{static_cast<double>(value), std::to_string(value)}});
    }
    bool number_float(double value, const std::string& literal) {
        if (!std::isfinite(value))
            return refuseHere(Code::NotFinite, "this number is too large; write a finite one");
        return take(Json{JsonNumber{value, literal}});
    }
    bool string(std::string& value) {
        if (value.find('\0') != std::string::npos)
            return refuseHere(Code::BadValue, "this text holds a zero character; leave it out");
        return take(Json{std::move(value)});
    }
    bool binary(nlohmann::json::binary_t&) { return false; }

    bool start_object(std::size_t) { return open(Json{Json::Object{}}); }
    bool start_array(std::size_t) { return open(Json{Json::Array{}}); }
    bool key(std::string& key) {
        m_open.back().key = std::move(key);
        return true;
    }
    bool end_object() {
        std::vector<std::string_view> keys;
        for (const auto& member : std::get<Json::Object>(m_open.back().json.value))
            keys.push_back(member.first);
        std::ranges::sort(keys);
        const auto twin = std::ranges::adjacent_find(keys);
        if (twin != keys.end()) {
            m_open.back().key = std::string(*twin);
            return refuseHere(Code::DuplicateId, "this key stands twice here; keep one of the two");
        }
        return close();
    }
    bool end_array() { return close(); }

    bool parse_error(std::size_t byte, const std::string&, const nlohmann::detail::exception& e) {
        constexpr int kNumberOverflow = 406;
        if (e.id == kNumberOverflow || standsNotANumber(byte))
            return refuseHere(Code::NotFinite,
                              "this is not a finite number; write a finite one or leave it out");
        const auto [line, column] = lineColumnAt(m_text, byte == 0 ? 0 : byte - 1);
        m_refusal = Refusal{Code::BadDocument, fmt::format("line {}, column {}", line, column),
                            "this is not JSON in UTF-8: " + reason(e.what())};
        return false;
    }

    [[nodiscard]] Result<Json> result() && {
        if (m_refusal) return tl::unexpected<Refusal>(std::move(*m_refusal));
        return std::move(m_done);
    }

  private:
    struct Open {
        Json json;
        std::string key;
    };

    bool open(Json json) {
        if (m_open.size() >= m_bounds.depth)
            return refuseHere(Code::TooLarge,
                              fmt::format("this is nested more than {} deep", m_bounds.depth));
        m_open.push_back({std::move(json), {}});
        return true;
    }
    bool close() {
        Json json = std::move(m_open.back().json);
        m_open.pop_back();
        return take(std::move(json));
    }
    bool take(Json json) {
        if (m_open.empty()) {
            m_done = std::move(json);
        } else if (auto* list = std::get_if<Json::Array>(&m_open.back().json.value)) {
            list->push_back(std::move(json));
        } else {
            std::get<Json::Object>(m_open.back().json.value)
                .emplace_back(std::move(m_open.back().key), std::move(json));
        }
        return true;
    }

    [[nodiscard]] std::string pointer() const {
        std::string path;
        for (const auto& open : m_open) {
            if (const auto* list = open.json.as<Json::Array>())
                path = pointerTo(path, list->size());
            else
                path = pointerTo(path, open.key);
        }
        return path;
    }
    bool refuseHere(Code code, std::string help) {
        m_refusal = Refusal{code, pointer(), std::move(help)};
        return false;
    }

    [[nodiscard]] bool standsNotANumber(std::size_t byte) const {
        const auto from = m_text.substr(std::min(m_text.size(), byte < 2 ? 0 : byte - 2), 16);
        return std::ranges::any_of(std::array<std::string_view, 4>{"NaN", "nan", "Infinity", "inf"},
                                   [&](auto word) {
                                       const auto found = from.find(word);
                                       return found != std::string_view::npos && found <= 1;
                                   });
    }
    /// The library's sentence without its own number and position in front.
    static std::string reason(std::string_view what) {
        for (const std::string_view lead : {"syntax error", "parse error at"}) {
            const auto found = what.find(lead);
            if (found != std::string_view::npos) return std::string(what.substr(found));
        }
        return std::string(what);
    }

    std::string_view m_text;
    JsonBounds m_bounds;
    std::vector<Open> m_open;
    Json m_done;
    std::optional<Refusal> m_refusal;
};

}  // namespace

Result<Json> parseJson(std::string_view text, JsonBounds bounds) {
    if (text.size() > bounds.bytes)
        return refuse(Code::TooLarge, "",
                      fmt::format("the document has {} bytes; at most {} are read", text.size(),
                                  bounds.bytes));
    Builder builder(text, bounds);
    nlohmann::json::sax_parse(text.begin(), text.end(), &builder);
    return std::move(builder).result();
}

}  // namespace evidence::exchange

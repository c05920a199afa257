#pragma once

#include "evidence-core/exchange/json_reader.h"
#include "evidence-core/record/register.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <variant>
#include <vector>

/// JSON into any value of a record, by the record's own list of fields. Each overload returns false
/// with the refusal in `reader` where the JSON does not fit. Whether what is read makes sense
/// together is for check_register.h.
namespace evidence::exchange {

template <record::Described T>
bool fromJson(JsonReader& reader, const Json& json, T& out);
template <class T>
bool fromJson(JsonReader& reader, const Json& json, std::optional<T>& out);
template <class T>
bool fromJson(JsonReader& reader, const Json& json, std::vector<T>& out);
template <class T, std::size_t N>
bool fromJson(JsonReader& reader, const Json& json, std::array<T, N>& out);

inline bool fromJson(JsonReader& reader, const Json& json, std::string& out) {
    const auto* text = json.as<std::string>();
    if (!text) return reader.wrongType("a text", json);
    out = *text;
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, bool& out) {
    const auto* truth = json.as<bool>();
    if (!truth) return reader.wrongType("true or false", json);
    out = *truth;
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, double& out) {
    const auto* number = json.as<JsonNumber>();
    if (!number) return reader.wrongType("a number", json);
    out = number->value;
    return true;
}

template <class Whole>
bool wholeFromJson(JsonReader& reader, const Json& json, Whole& out) {
    const auto* number = json.as<JsonNumber>();
    if (!number) return reader.wrongType("a whole number", json);
    // Doubles hold every whole number up to 2^53 exactly.
    constexpr double kExact = 9007199254740992.0;
    const double most = std::min(kExact, static_cast<double>(std::numeric_limits<Whole>::max()));
    if (std::trunc(number->value) != number->value)
        return reader.refuseHere(Code::WrongType,
                                 "expected a whole number here, found " + number->text);
    if (std::abs(number->value) > most)
        return reader.refuseHere(Code::TooLarge, "this number is too large");
    out = static_cast<Whole>(number->value);
    return true;
}
inline bool fromJson(JsonReader& reader, const Json& json, int& out) {
    return wholeFromJson(reader, json, out);
}
inline bool fromJson(JsonReader& reader, const Json& json, std::int64_t& out) {
    return wholeFromJson(reader, json, out);
}

template <record::Named E>
bool fromJson(JsonReader& reader, const Json& json, E& out) {
    const auto* text = json.as<std::string>();
    const auto value = text ? record::byName<E>(*text) : std::nullopt;
    if (value) {
        out = *value;
        return true;
    }
    std::string words;
    for (const auto& entry : record::Names<E>::all)
        words += (words.empty() ? "\"" : ", \"") + std::string(entry.first) + '"';
    if (!text) return reader.wrongType("one of " + words, json);
    return reader.refuseHere(Code::BadValue,
                             "expected one of " + words + "; found \"" + *text + '"');
}

template <class Tag>
bool fromJson(JsonReader& reader, const Json& json, record::Id<Tag>& out) {
    const auto* text = json.as<std::string>();
    if (!text) return reader.wrongType("an id (a text)", json);
    if (text->empty()) return reader.refuseHere(Code::BadValue, "an id cannot be empty");
    out.text = *text;
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, record::Written& out) {
    if (const auto* number = json.as<JsonNumber>())
        out = record::Number{number->value, number->text};
    else if (const auto* text = json.as<std::string>())
        out = *text;
    else
        return reader.wrongType("a number or a text", json);
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, record::PixelPoint& out) {
    std::array<double, 2> xy{};
    if (!fromJson(reader, json, xy)) return false;
    out = {xy[0], xy[1]};
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, record::RelationUse& out) {
    if (json.as<Json::Object>()) {
        record::Infer infer;
        if (!fromJson(reader, json, infer)) return false;
        out = infer;
        return true;
    }
    if (!json.as<std::string>())
        return reader.wrongType(R"("adjust", "check" or {"infer": dimension})", json);
    record::Use use{};
    if (!fromJson(reader, json, use)) return false;
    out = use;
    return true;
}

inline bool fromJson(JsonReader& reader, const Json& json, std::map<std::string, double>& out) {
    const auto* object = json.as<Json::Object>();
    if (!object) return reader.wrongType("an object of numbers", json);
    for (const auto& [key, value] : *object) {
        const JsonReader::Step step(reader, std::string_view(key));
        if (!fromJson(reader, value, out[key])) return false;
    }
    return true;
}

template <class T>
bool fromJson(JsonReader& reader, const Json& json, std::optional<T>& out) {
    return fromJson(reader, json, out.emplace());
}

template <class T>
bool fromJson(JsonReader& reader, const Json& json, std::vector<T>& out) {
    const auto* list = json.as<Json::Array>();
    if (!list) return reader.wrongType("a list", json);
    out.clear();
    out.reserve(list->size());
    for (std::size_t i = 0; i < list->size(); ++i) {
        const JsonReader::Step step(reader, i);
        if (!fromJson(reader, (*list)[i], out.emplace_back())) return false;
    }
    return true;
}

template <class T, std::size_t N>
bool fromJson(JsonReader& reader, const Json& json, std::array<T, N>& out) {
    const auto* list = json.as<Json::Array>();
    if (!list) return reader.wrongType("a list of " + std::to_string(N), json);
    if (list->size() != N)
        return reader.refuseHere(Code::BadValue, "expected a list of " + std::to_string(N) +
                                                     ", found " + std::to_string(list->size()));
    for (std::size_t i = 0; i < N; ++i) {
        const JsonReader::Step step(reader, i);
        if (!fromJson(reader, (*list)[i], out[i])) return false;
    }
    return true;
}

namespace detail {

template <class T>
inline constexpr bool isRequired = true;
template <class T>
inline constexpr bool isRequired<std::optional<T>> = false;
template <class T>
inline constexpr bool isRequired<std::vector<T>> = false;
template <class K, class V>
inline constexpr bool isRequired<std::map<K, V>> = false;

template <record::Described T>
bool refuseUnknownKey(JsonReader& reader, const Json::Object& object, const T& model) {
    std::string keys;
    record::forEachField(model, [&](std::string_view key, const auto&) {
        keys += (keys.empty() ? "" : ", ") + std::string(key);
    });
    for (const auto& entry : object) {
        bool known = false;
        record::forEachField(
            model, [&](std::string_view key, const auto&) { known = known || key == entry.first; });
        if (known) continue;
        const JsonReader::Step step(reader, std::string_view(entry.first));
        return reader.refuseHere(Code::UnknownKey, "this key is not known here; known are " + keys);
    }
    return true;
}

}  // namespace detail

template <record::Described T>
bool fromJson(JsonReader& reader, const Json& json, T& out) {
    const auto* object = json.as<Json::Object>();
    if (!object) return reader.wrongType("an object", json);
    std::string missing;
    std::size_t known = 0;
    record::forEachField(out, [&](std::string_view key, auto& member) {
        if (reader.refused()) return;
        const Json* value = json.find(key);
        if (!value) {
            if (detail::isRequired<std::decay_t<decltype(member)>> && missing.empty())
                missing = key;
            return;
        }
        ++known;
        const JsonReader::Step step(reader, key);
        fromJson(reader, *value, member);
    });
    if (reader.refused()) return false;
    if (known != object->size()) return detail::refuseUnknownKey(reader, *object, out);
    if (!missing.empty())
        return reader.refuseHere(Code::MissingKey, "the key \"" + missing + "\" is required here");
    return true;
}

}  // namespace evidence::exchange

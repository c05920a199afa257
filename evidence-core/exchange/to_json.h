#pragma once

#include "evidence-core/exchange/json_value.h"
#include "evidence-core/record/register.h"

#include <array>
#include <map>
#include <optional>
#include <variant>
#include <vector>

/// Any value of a record as JSON, by the record's own list of fields. Absent optionals and empty
/// lists are left out: they mean the same on reading.
namespace evidence::exchange {

template <record::Described T>
[[nodiscard]] Json toJson(const T& value);
template <class T>
[[nodiscard]] Json toJson(const std::vector<T>& list);
template <class T, std::size_t N>
[[nodiscard]] Json toJson(const std::array<T, N>& list);

[[nodiscard]] inline Json toJson(const std::string& value) {
    return {value};
}
[[nodiscard]] inline Json toJson(bool value) {
    return {value};
}
[[nodiscard]] inline Json toJson(double value) {
    return {JsonNumber::of(value)};
}
[[nodiscard]] inline Json toJson(int value) {
    return {JsonNumber::of(std::int64_t{value})};
}
[[nodiscard]] inline Json toJson(std::int64_t value) {
    return {JsonNumber::of(value)};
}
template <record::Named E>
[[nodiscard]] Json toJson(E value) {
    return {std::string(record::nameOf(value))};
}
template <class Tag>
[[nodiscard]] Json toJson(const record::Id<Tag>& id) {
    return {id.text};
}
[[nodiscard]] inline Json toJson(const record::Number& number) {
    return number.text.empty() ? Json{JsonNumber::of(number.value)}
                               : Json{JsonNumber{number.value, number.text}};
}
[[nodiscard]] inline Json toJson(const record::PixelPoint& point) {
    return {Json::Array{toJson(point.x), toJson(point.y)}};
}
template <class... T>
[[nodiscard]] Json toJson(const std::variant<T...>& value) {
    return std::visit([](const auto& held) { return toJson(held); }, value);
}
[[nodiscard]] inline Json toJson(const std::map<std::string, double>& values) {
    Json::Object object;
    for (const auto& [key, value] : values) object.emplace_back(key, toJson(value));
    return {std::move(object)};
}
template <class T>
[[nodiscard]] Json toJson(const std::vector<T>& list) {
    Json::Array array;
    array.reserve(list.size());
    for (const auto& item : list) array.push_back(toJson(item));
    return {std::move(array)};
}
template <class T, std::size_t N>
[[nodiscard]] Json toJson(const std::array<T, N>& list) {
    Json::Array array;
    for (const auto& item : list) array.push_back(toJson(item));
    return {std::move(array)};
}

namespace detail {

template <class T>
std::optional<Json> presentJson(const T& value) {
    return toJson(value);
}
template <class T>
std::optional<Json> presentJson(const std::optional<T>& value) {
    return value ? std::optional<Json>(toJson(*value)) : std::nullopt;
}
template <class T>
std::optional<Json> presentJson(const std::vector<T>& list) {
    return list.empty() ? std::nullopt : std::optional<Json>(toJson(list));
}
inline std::optional<Json> presentJson(const std::map<std::string, double>& values) {
    return values.empty() ? std::nullopt : std::optional<Json>(toJson(values));
}

}  // namespace detail

/// As `toJson`, but nothing where the exchange document has no key for it.
template <class T>
[[nodiscard]] std::optional<Json> memberJson(const T& value) {
    return detail::presentJson(value);
}

template <record::Described T>
[[nodiscard]] Json toJson(const T& value) {
    Json::Object object;
    record::forEachField(value, [&](std::string_view key, const auto& member) {
        if (auto json = memberJson(member)) object.emplace_back(std::string(key), std::move(*json));
    });
    return {std::move(object)};
}

}  // namespace evidence::exchange

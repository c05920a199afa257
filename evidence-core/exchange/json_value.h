#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace evidence::exchange {

/// A JSON number with its literal: the last written decimal of a number is its resolution, so
/// `2.50` must not become `2.5`.
struct JsonNumber {
    double value = 0;
    std::string text;  ///< as written, or as we would write it

    [[nodiscard]] static JsonNumber of(double value);
    [[nodiscard]] static JsonNumber of(std::int64_t value);
    friend bool operator==(const JsonNumber&, const JsonNumber&) = default;
};

/// One JSON value. Objects keep the order of their keys; keys are unique.
struct Json {
    using Array = std::vector<Json>;
    using Member = std::pair<std::string, Json>;
    using Object = std::vector<Member>;

    std::variant<std::nullptr_t, bool, JsonNumber, std::string, Array, Object> value = nullptr;

    template <class T>
    [[nodiscard]] const T* as() const {
        return std::get_if<T>(&value);
    }
    /// The member `key` of an object; null where it has none, or where this is no object.
    [[nodiscard]] const Json* find(std::string_view key) const;

    friend bool operator==(const Json&, const Json&) = default;
};

/// "text", "a number", "a list", "an object", "true or false", "null": for messages.
[[nodiscard]] std::string_view typeName(const Json& json);

}  // namespace evidence::exchange

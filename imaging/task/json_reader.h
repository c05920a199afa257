#pragma once

#include "imaging/refusal.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

/// Strict reading of JSON objects: the first fault ends it, as a thrown `Fault` that parseTask
/// turns into its refusal. Private to this room.
namespace imaging::task {

using Json = nlohmann::json;

struct Fault {
    Refusal refusal;
};

[[noreturn]] inline void fault(Code code, std::string place, std::string help) {
    throw Fault{Refusal{code, std::move(place), std::move(help)}};
}

/// An object of the task at `place`; every key must be among `known`.
class ObjectReader {
  public:
    ObjectReader(const Json& json, std::string place, std::initializer_list<std::string_view> known)
        : m_json(json), m_place(std::move(place)) {
        if (!json.is_object()) {
            fault(Code::WrongType, m_place, "an object {…} is expected here");
        }
        for (const auto& [key, value] : json.items()) {
            bool found = false;
            for (const std::string_view name : known) {
                found = found || name == key;
            }
            if (!found) {
                fault(Code::UnknownKey, at(key),
                      fmt::format("the key \"{}\" is not known here; check its spelling", key));
            }
        }
    }

    [[nodiscard]] std::string at(std::string_view key) const {
        std::string escaped;
        for (const char c : key) {
            escaped += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
        }
        return fmt::format("{}/{}", m_place, escaped);
    }
    [[nodiscard]] const std::string& place() const { return m_place; }

    [[nodiscard]] const Json* find(const char* key) const {
        const auto it = m_json.find(key);
        return it == m_json.end() || it->is_null() ? nullptr : &*it;
    }

    [[nodiscard]] const Json& need(const char* key) const {
        const Json* value = find(key);
        if (value == nullptr) {
            fault(Code::MissingKey, at(key), fmt::format("\"{}\" is required here", key));
        }
        return *value;
    }

    [[nodiscard]] std::string text(const char* key) const { return asText(need(key), at(key)); }

    [[nodiscard]] std::optional<double> number(const char* key) const {
        const Json* value = find(key);
        return value == nullptr ? std::nullopt : std::optional(asNumber(*value, at(key)));
    }

    /// The array under `key`, or an empty one.
    [[nodiscard]] const Json& list(const char* key) const {
        static const Json kEmpty = Json::array();
        const Json* value = find(key);
        if (value == nullptr) {
            return kEmpty;
        }
        if (!value->is_array()) {
            fault(Code::WrongType, at(key), "an array […] is expected here");
        }
        return *value;
    }

    static std::string asText(const Json& value, const std::string& place) {
        if (!value.is_string()) {
            fault(Code::WrongType, place, "a text in quotes is expected here");
        }
        return value.get<std::string>();
    }

    static double asNumber(const Json& value, const std::string& place) {
        if (!value.is_number()) {
            fault(Code::WrongType, place, "a number is expected here");
        }
        const double number = value.get<double>();
        if (!std::isfinite(number)) {
            fault(Code::NotFinite, place, "the number is not finite");
        }
        return number;
    }

  private:
    const Json& m_json;
    std::string m_place;
};

}  // namespace imaging::task

#pragma once

#include "evidence-core/quantity/significant.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>

/// Private to the writers of this room: how a computed number stands in a JSON answer.
namespace evidence::exchange {

/// Twelve significant digits; `null` for what is not finite.
[[nodiscard]] inline nlohmann::ordered_json numberJson(double value) {
    if (!std::isfinite(value)) return nullptr;
    return quantity::toTwelveDigits(value);
}

[[nodiscard]] inline nlohmann::ordered_json numberJson(const std::optional<double>& value) {
    return value ? numberJson(*value) : nlohmann::ordered_json(nullptr);
}

}  // namespace evidence::exchange

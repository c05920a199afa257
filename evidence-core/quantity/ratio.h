#pragma once

#include <cstdint>

namespace evidence::quantity {

/// An exact ratio of two whole numbers, small enough for the defined factors between units.
struct Ratio {
    std::int64_t numerator = 1;
    std::int64_t denominator = 1;

    /// The nearest double (one correctly rounded division; both terms must be below 2^53).
    [[nodiscard]] constexpr double value() const {
        return static_cast<double>(numerator) / static_cast<double>(denominator);
    }
    [[nodiscard]] constexpr Ratio inverse() const { return {denominator, numerator}; }
    [[nodiscard]] friend constexpr Ratio operator*(Ratio a, Ratio b) {
        return {a.numerator * b.numerator, a.denominator * b.denominator};
    }
};

}  // namespace evidence::quantity

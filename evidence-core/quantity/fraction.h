#pragma once

#include "evidence-core/quantity/inch.h"

#include <cstdint>
#include <string>

namespace evidence::quantity {

/// How figures are set: for plain text, or with real fractions and primes (½, 7⁄16, ′, ″).
enum class Typesetting { Plain, Typographic };

/// A length rounded to whole steps of an inch fraction, ready to be written.
struct ShopFraction {
    std::int64_t steps = 0;  ///< signed whole number of 1/smallest inch
    int smallest = 16;       ///< denominator of the step
    Inch rounding;           ///< written − exact: what the rounding added

    [[nodiscard]] Inch written() const {
        return Inch::fromInches(static_cast<double>(steps) / smallest);
    }
};

/// Rounds to the nearest 1/`smallest` inch, ties to the even numerator (at that denominator).
/// `smallest`: 1 … 1024 (shops use 2 … 128). Needs a finite length below 1e12 in.
[[nodiscard]] ShopFraction toShopFraction(Inch length, int smallest);

/// Feet, inches and a reduced fraction by shop custom: `3'-7 5/16"`, the empty foot and inch
/// written (`0'-7 5/16"`, `3'-0"`), the hyphen after the feet, the sign once in front of the feet.
[[nodiscard]] std::string feetInches(Inch length, int smallest,
                                     Typesetting type = Typesetting::Plain);
/// Inches and a reduced fraction: `43 5/16"`, `5/16"`, `0"`.
[[nodiscard]] std::string inchFraction(Inch length, int smallest,
                                       Typesetting type = Typesetting::Plain);

/// What the rounding did, for the note beside a fraction: "exact", or `rounded by +0.0045 in` with
/// two significant digits. Less than 1e-9 in counts as exact.
[[nodiscard]] std::string roundingNote(const ShopFraction& fraction);

/// A reduced proper fraction alone: "5/16" or "5⁄16" and "½" in typographic setting.
[[nodiscard]] std::string fractionText(std::int64_t numerator, std::int64_t denominator,
                                       Typesetting type);

}  // namespace evidence::quantity

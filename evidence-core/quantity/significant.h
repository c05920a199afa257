#pragma once

#include <string>

namespace evidence::quantity {

/// The double nearest to `value` written with 12 significant digits: what every JSON output holds,
/// so that the last bits of an algorithm never show. -0 becomes 0. Needs a finite value.
[[nodiscard]] double toTwelveDigits(double value);

/// `value` with `digits` (1…17) significant digits in plain decimals, no exponent, trailing zeros
/// kept: (1234.5, 2) -> "1200", (0.0995, 2) -> "0.10". Ties go to the even figure of the decimal
/// nearest to the double. Needs a finite value.
[[nodiscard]] std::string significantText(double value, int digits);

/// Number of decimals that leaves `spread` with `digits` significant digits after rounding (may be
/// negative: -1 rounds to tens). A spread of 0.0996 with 2 digits is 0.10: two decimals.
[[nodiscard]] int decimalsFor(double spread, int digits);

/// `value` rounded to a number of decimals (negative: tens, hundreds …), no exponent, never "-0".
[[nodiscard]] std::string decimalText(double value, int decimals);

}  // namespace evidence::quantity

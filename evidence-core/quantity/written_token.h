#pragma once

#include "evidence-core/refusal.h"

#include <boost/multiprecision/cpp_int.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Private to quantity/: the pieces a written value is made of. Only parse_quantity includes it.
namespace evidence::quantity {

using Rational = boost::multiprecision::cpp_rational;

enum class Piece {
    Number,       ///< whole or decimal number
    Fraction,     ///< one typographic character such as ½, or raised and lowered figures
    Slash,        ///< / or U+2044
    Prime,        ///< foot or minute mark
    DoublePrime,  ///< inch or second mark
    Dash,         ///< any hyphen, dash or minus
    Plus,
    Degree,
    Percent,
    Tilde,
    Word,   ///< letters, with a full stop or a raised figure that belongs to them
    Other,  ///< anything else
};

struct WrittenToken {
    Piece piece = Piece::Other;
    std::string text;           ///< as written
    std::size_t character = 1;  ///< first code point, counted from 1
    bool spaceBefore = false;
    bool wholeNumber = false;  ///< Number: no decimal point, no exponent
    Rational value = 0;        ///< Number, Fraction
    Rational step = 1;         ///< Number: last written decimal; Fraction: 1/denominator
};

/// Splits a text into pieces. Errors: BadValue (bytes that are not UTF-8, decimal comma, two
/// decimal points), TooLarge (over 30 figures or an exponent beyond ±30).
[[nodiscard]] Result<std::vector<WrittenToken>> splitWritten(std::string_view text);

/// "character N", the place of a fault.
[[nodiscard]] std::string atCharacter(std::size_t character);

}  // namespace evidence::quantity

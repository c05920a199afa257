#pragma once

#include "evidence-core/quantity/unit.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>

namespace evidence::quantity {

/// A value as somebody wrote it.
struct Written {
    double canonical = 0.0;  ///< in the canonical unit; nearest double of the exact rational
    Unit unit =
        Unit::Inch;  ///< the unit written (of several the last: inch in 5'-3"), else the bare one
    bool unitWritten = false;  ///< false: a bare number that took the unit beside the field
    double resolution =
        0.0;  ///< > 0, canonical units: last written decimal, 1/denominator, or 1 unit
    bool approximate = false;  ///< "about", "c.", "approx.", "~" stood before it
    std::string text;          ///< verbatim

    friend bool operator==(const Written&, const Written&) = default;
};

/// Reads a value as people write it: `5'-3 1/2"`, `5 ft 3½ in`, `63 1/2`, `1605 mm`, `12° 30'`,
/// `2.5 kg`, `2 lb 3 oz`, `40 sq in`, `about 9 ft`. Fractions and decimals are exact rationals up
/// to the last rounding to double. Typographic primes, fractions, dashes and spaces count as their
/// plain counterparts; a minus in front belongs to the whole value. The user's locale plays no
/// part: the decimal mark is the point, a comma is only taken between thousands where nothing else
/// can be meant.
///
/// `bareUnit` is what a number without a unit means; none: such a number is refused.
/// Errors: BadValue (cannot be read, or can be read in two ways: OCR mistakes, decimal commas,
/// dates, two values in one field), BadUnit, NotFinite, TooLarge. `place` is "character N" of the
/// text, counted from 1 in code points; callers put their own place in front of it.
[[nodiscard]] Result<Written> parseQuantity(std::string_view text, Measure expected,
                                            std::optional<Unit> bareUnit);

/// Resolution of a JSON number from its text: its last written decimal, an integer's 1 (exchange
/// contract). `digits` is the number as it stands in the document, for example "2.50" or "1e-3".
[[nodiscard]] double resolutionOfNumber(std::string_view digits);

}  // namespace evidence::quantity

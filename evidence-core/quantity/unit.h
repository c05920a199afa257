#pragma once

#include "evidence-core/quantity/ratio.h"
#include "evidence-core/refusal.h"

#include <string_view>

namespace evidence::quantity {

/// What kind of physical thing a number is. Canonical units: inch, radian, pound (mass), square
/// inch, cubic inch, 1.
enum class Measure { Length, Angle, Mass, Area, Volume, Number };

/// A unit that a document, a screen or a drawing may use. The registers persist `nameOf`, never the
/// position in this list.
enum class Unit {
    Inch,
    Foot,
    Yard,
    Millimetre,
    Centimetre,
    Metre,
    Degree,
    ArcMinute,
    ArcSecond,
    Radian,
    Pound,
    Ounce,
    Kilogram,
    Gram,
    Tonne,
    SquareInch,
    SquareFoot,
    SquareMillimetre,
    SquareCentimetre,
    SquareMetre,
    CubicInch,
    CubicFoot,
    CubicMillimetre,
    CubicCentimetre,
    CubicMetre,
    Litre,
    One,
    Percent,
};

/// The unit's name in documents: "in", "ft", "mm", "deg", "lb", "in2", "mm3", "1" …
[[nodiscard]] std::string_view nameOf(Unit unit);
/// "length", "angle", "mass", "area", "volume", "number".
[[nodiscard]] std::string_view nameOf(Measure measure);

[[nodiscard]] Measure measureOf(Unit unit);
[[nodiscard]] Unit canonicalUnit(Measure measure);

/// Exact factor to the canonical unit; for degrees, minutes and seconds of arc to the degree (π/180
/// is no ratio of whole numbers).
[[nodiscard]] Ratio exactFactor(Unit unit);
/// canonical = written × factor, for every unit.
[[nodiscard]] double factorToCanonical(Unit unit);
[[nodiscard]] double toCanonical(double written, Unit unit);
[[nodiscard]] double fromCanonical(double canonical, Unit unit);

/// The unit a text names: document names and what people write ("in.", "inches", "sq in", "mm²",
/// "°", "lbs"). Case of letters is ignored: drawings write MM and FT.
/// Errors: BadUnit, with the names that would fit.
[[nodiscard]] Result<Unit> unitNamed(std::string_view text);
/// As above; also BadUnit where the unit is known and measures another thing than `expected`.
[[nodiscard]] Result<Unit> unitNamed(std::string_view text, Measure expected);

}  // namespace evidence::quantity

#pragma once

#include "evidence-core/record/table_row.h"
#include "evidence-core/refusal.h"

#include <string_view>
#include <vector>

namespace evidence::trade {

/// A unit that a row of a trade table may be in. Rows keep the unit of their source.
enum class RowUnit {
    Inch,
    Millimetre,
    PoundPerCubicFoot,
    PoundPerCubicInch,
    GramPerCubicCentimetre,
    KilogramPerCubicMetre,
    PerPercent,   ///< of the size, for each per cent of moisture
    Percent,      ///< pure, hundredths
    One,          ///< pure
    InchPerFoot,  ///< pure, twelfths: the pattern-maker's way
    MicrometrePerYear,
    InchPerYear,
    PerDegreeF,  ///< millionths of the size for each degree Fahrenheit
    PerDegreeC,
};

/// "in", "lb/ft3", "1/%", "in/ft", "um/yr", "ppm/degF" …
[[nodiscard]] std::string_view nameOf(RowUnit unit);

/// The factor to the canonical unit of what the row is about: inch, lb/in3, 1/%, pure, in/year,
/// 1/°F. Exact up to the last rounding.
[[nodiscard]] double factorToCanonical(RowUnit unit);

/// The unit of that name that rows of this kind may be in. Error: BadUnit at "unit", with those
/// that fit.
[[nodiscard]] Result<RowUnit> rowUnitNamed(std::string_view name, record::TableRowKind kind);

/// Names of the units that rows of this kind may be in, the usual one first.
[[nodiscard]] std::vector<std::string_view> unitNamesFor(record::TableRowKind kind);

}  // namespace evidence::trade

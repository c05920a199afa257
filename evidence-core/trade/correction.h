#pragma once

#include "evidence-core/quantity/inch.h"
#include "evidence-core/trade/row.h"

#include <optional>
#include <string>

/// What a row of a table does to a reading: a factor or an amount, with its uncertainty.
namespace evidence::trade {

/// A figure with its standard uncertainty.
struct Known {
    double value = 0;
    double u = 0;
};

/// What was measured where a casting is concerned.
enum class InHand {
    Pattern,     ///< the pattern: the part is smaller
    CopyCasting  ///< a casting made with an old part as its pattern: the part was bigger
};

/// What has to be said beside the row. Each kind of row asks for its own.
struct Circumstances {
    std::optional<Known> moistureThen;  ///< per cent, when it was made: wood
    std::optional<Known> moistureNow;   ///< per cent, when it was measured: wood
    std::optional<InHand> inHand;       ///< castings
    std::optional<Known> years;         ///< in the open: corrosion
    std::optional<int> faces;           ///< 1 or 2: corrosion, coatings
    std::optional<Known> degreesThen;   ///< Fahrenheit: heat
    std::optional<Known> degreesNow;    ///< Fahrenheit: heat
};

/// A correction of a reading: it is multiplied by `factor`, or `add` is added to it.
struct WorkedCorrection {
    std::string label;  ///< "wood movement"
    std::optional<double> factor;
    std::optional<quantity::Inch> add;
    double u = 0;        ///< standard; pure beside a factor, inches beside an amount
    std::string reason;  ///< the row, its source and the circumstances, in words
};

/// What the reading becomes as the part was made (or the sheet drawn):
/// - wood, 6 to 14 %: factor 1 + C·(M_then − M_now); u² = (ΔM·u_C)² + C²·(u²_then + u²_now)
///   (Wood Handbook FPL-GTR-190, eq. 13-2); beyond: with S the shrinkage from green to dry and
///   s(M) = 1 − S·max(0, 28 − M)/28, factor s(M_then)/s(M_now) (the same, eq. 4-2 of the 2010
///   edition, fibre saturation at 28 %; both from memory);
/// - castings: c the contraction; from the pattern 1/(1 + c), from a copy 1 + c;
/// - sheets: factor 1 + c;
/// - corrosion: add faces · r·t^b, r the first year's loss, t years, b 0.52 for steel and 0.81 for
///   zinc (ISO 9224, from memory);
/// - coatings: add − faces · thickness;
/// - heat: factor 1 + α·(T_then − T_now).
/// First-order uncertainties (JCGM 100:2008, 5.1.2); faces corrode alike, so their errors add.
/// Errors, at the key of `Circumstances` in snake case: MissingKey where the row asks for it,
/// BadValue where it is out of reach; WrongUse at "table_row" for a row that corrects nothing.
[[nodiscard]] Result<WorkedCorrection> correctionBy(const Row& row,
                                                    const Circumstances& circumstances);

}  // namespace evidence::trade

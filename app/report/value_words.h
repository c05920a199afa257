#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/dimension.h"
#include "evidence-core/record/measure.h"
#include "evidence-core/record/value.h"

#include <QString>

#include <optional>
#include <string>

/// Figures as reports set them: two significant digits of doubt, both systems of units, real
/// fractions. ± is half the 95 % interval everywhere.
namespace app::report {

/// An adjusted value with its 95 % interval in the same unit.
struct Interval {
    double value = 0;
    double low = 0;
    double high = 0;
    evidence::quantity::Unit unit = evidence::quantity::Unit::Inch;
};

[[nodiscard]] std::optional<Interval> intervalOf(const evidence::judgement::DimensionResult& result,
                                                 const evidence::record::Dimension& dimension);

/// "43.31 ± 0.12 in"; "+0.12 −0.31" where one side is over 1.1 times the other; "exact" without
/// doubt. `unit` is the one to write in.
[[nodiscard]] QString withDoubt(const Interval& interval, evidence::quantity::Unit unit);
/// "± 0.12 in" alone.
[[nodiscard]] QString doubtAlone(const Interval& interval, evidence::quantity::Unit unit);
/// "43.19 … 43.43 in".
[[nodiscard]] QString between(const Interval& interval, evidence::quantity::Unit unit);

/// The unit of each system that suits a measure and a size: inch and millimetre, pound and
/// kilogram, square inch and square centimetre …; of angles and pure numbers both are the same.
[[nodiscard]] evidence::quantity::Unit customaryUnit(evidence::quantity::Measure measure);
[[nodiscard]] evidence::quantity::Unit metricUnit(evidence::quantity::Measure measure);

/// Feet, inches and a fraction no finer than the doubt earns (a step is at least an eighth of half
/// the interval) nor finer than `smallest`: `3′-7 5⁄16″`. `note` says what the rounding did.
struct Fraction {
    QString text;
    QString note;
};
[[nodiscard]] Fraction earnedFraction(const Interval& lengthInterval, int smallest);

/// The headline: a fraction for lengths, else the customary figure without its doubt.
[[nodiscard]] QString headline(const Interval& interval, int smallestFraction);
/// "43.31 ± 0.12 in · 1100.1 ± 3.0 mm": both systems (one where they are the same).
[[nodiscard]] QString bothSystems(const Interval& interval);

/// What somebody wrote, verbatim, with its unit where a bare number stands; then in brackets the
/// same in the other system where it can be read: `14′-3 1⁄2″ (4356.1 mm)`.
[[nodiscard]] QString writtenWords(const evidence::record::Written& written,
                                   const std::optional<std::string>& unit,
                                   const evidence::record::Dimension* dimension);

/// A written value in the dimension's unit, where it can be read.
[[nodiscard]] std::optional<double> writtenIn(const evidence::record::Written& written,
                                              const std::optional<std::string>& unit,
                                              const evidence::record::Dimension& dimension);

/// "allow ± 1⁄16 in": a tolerance in the dimension's unit.
[[nodiscard]] QString allowWords(double tolerance, evidence::quantity::Unit unit);

/// A plain number with `digits` significant digits, minus sign set as such.
[[nodiscard]] QString rounded(double value, int digits);
/// A number to as many decimals as `spread` earns with two digits.
[[nodiscard]] QString figureFor(double value, double spread);
/// "in", "mm", "°", "lb", "" …
[[nodiscard]] QString unitSign(evidence::quantity::Unit unit);
/// "37 %".
[[nodiscard]] QString percent(double share);

}  // namespace app::report

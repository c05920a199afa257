#pragma once

#include "evidence-core/quantity/fraction.h"
#include "evidence-core/quantity/unit.h"

#include <string>

namespace evidence::quantity {

/// How lengths are shown.
enum class LengthStyle {
    Decimal,       ///< decimals of Display::lengthUnit
    InchFraction,  ///< 43 5/16"
    FeetInches,    ///< 3'-7 5/16"
};

/// How numbers are shown on screen, paper and slip. Angles are shown in degrees, numbers bare;
/// masses, areas and volumes follow the length unit (pounds and inches, or kilograms and
/// millimetres …).
struct Display {
    Unit lengthUnit = Unit::Inch;  ///< in, mm, cm (ft and m work too); for Decimal
    LengthStyle style = LengthStyle::Decimal;
    int smallestFraction = 32;  ///< 2 … 128, for the two fraction styles
    Typesetting type = Typesetting::Plain;

    friend bool operator==(const Display&, const Display&) = default;
};

/// The unit in which a measure is shown.
[[nodiscard]] Unit displayUnit(Measure measure, const Display& display);

/// A value ready to be set in columns.
struct ShownValue {
    std::string value;   ///< `43.31`, `3'-7 5/16"`
    std::string spread;  ///< `± 0.12`, `+0.15 -0.08`; empty where the value is exact
    std::string unit;    ///< `in`; empty for a fraction without a spread and for pure numbers
    std::string
        rounding;  ///< fractions: how far they were rounded ("exact", "rounded by +0.012 in")

    /// `43.31 ± 0.12 in`, `3'-7 5/16" ± 0.12 in`.
    [[nodiscard]] std::string text() const;
};

/// A value without an uncertainty of its own (a build value, a size as ruled): a shop fraction, or
/// a decimal with trailing zeros taken off (in to 0.0001, mm to 0.01, degrees to 0.001).
/// `canonical` is finite and in the canonical unit.
[[nodiscard]] std::string valueText(double canonical, Measure measure, const Display& display);

/// A value with its 95 % interval: ± is half of the interval, to two significant digits, and the
/// value has no digit beyond it; a fraction is no finer than a tenth of it. Where the two sides
/// differ after rounding: `+a -b`, both rounded as the wider. All in canonical units; low ≤ value ≤
/// high.
[[nodiscard]] ShownValue shownValue(double low95, double value, double high95, Measure measure,
                                    const Display& display);
/// shownValue as one text.
[[nodiscard]] std::string plusMinus(double low95, double value, double high95, Measure measure,
                                    const Display& display);

/// A standard uncertainty for a column headed u: two significant digits, with its unit.
[[nodiscard]] std::string uText(double u, Measure measure, const Display& display);

/// A wanted tolerance, never with a bare ±: `allow ± 1/16"`, `allow ± 1.5 mm`. A tolerance that is
/// no whole number of fraction steps is written in decimals even in a fraction style.
[[nodiscard]] std::string allowance(double tolerance, Measure measure, const Display& display);

/// Finest denominator that an interval of ± `halfWidth` inches earns: the step is at least a
/// tenth of it, the denominator a power of two, at most `smallest`, at least 1.
[[nodiscard]] int earnedFraction(double halfWidth, int smallest);

}  // namespace evidence::quantity

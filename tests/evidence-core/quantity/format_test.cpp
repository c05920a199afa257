#include "evidence-core/quantity/format.h"

#include "evidence-core/quantity/parse_quantity.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace evidence::quantity {
namespace {

const Display kInches{};
const Display kMillimetres{Unit::Millimetre, LengthStyle::Decimal, 32, Typesetting::Plain};
const Display kFeet{Unit::Inch, LengthStyle::FeetInches, 16, Typesetting::Plain};
const Display kSet{Unit::Inch, LengthStyle::InchFraction, 16, Typesetting::Typographic};

std::string around(double value, double half, Measure measure, const Display& display) {
    return plusMinus(value - half, value, value + half, measure, display);
}

TEST(Format, SpreadHasTwoDigitsAndTheValueNoMore) {
    EXPECT_EQ(around(43.312345, 0.1234, Measure::Length, kInches), "43.31 ± 0.12 in");
    EXPECT_EQ(around(43.312345, 0.0996, Measure::Length, kInches), "43.31 ± 0.10 in");
    EXPECT_EQ(around(43.312345, 12.4, Measure::Length, kInches), "43 ± 12 in");
    EXPECT_EQ(around(1234.0, 450.0, Measure::Length, kInches), "1230 ± 450 in");
    EXPECT_EQ(around(10.0, 0.1, Measure::Length, kMillimetres), "254.0 ± 2.5 mm");
    EXPECT_EQ(around(-0.001, 0.5, Measure::Length, kInches), "0.00 ± 0.50 in");
}

TEST(Format, LopsidedIntervalShowsBothSides) {
    EXPECT_EQ(plusMinus(9.92, 10.0, 10.15, Measure::Length, kInches), "10.00 +0.15 -0.08 in");
    EXPECT_EQ(plusMinus(10.0, 10.0, 10.15, Measure::Length, kInches), "10.00 +0.15 -0.00 in");
    EXPECT_EQ(shownValue(9.92, 10.0, 10.15, Measure::Length, kSet).spread, "+0.15 −0.08");
}

TEST(Format, OtherMeasuresTakeTheirUnits) {
    const double degree = std::numbers::pi / 180.0;
    EXPECT_EQ(around(12.5 * degree, 0.25 * degree, Measure::Angle, kInches), "12.50 ± 0.25°");
    EXPECT_EQ(around(100.0, 10.0, Measure::Mass, kMillimetres), "45.4 ± 4.5 kg");
    EXPECT_EQ(around(100.0, 10.0, Measure::Mass, kInches), "100 ± 10 lb");
    EXPECT_EQ(around(0.3, 0.012, Measure::Number, kInches), "0.300 ± 0.012");
    EXPECT_EQ(valueText(2.0, Measure::Area, kMillimetres), "1290.32 mm2");
    Display typeset = kMillimetres;
    typeset.type = Typesetting::Typographic;
    EXPECT_EQ(valueText(2.0, Measure::Area, typeset), "1290.32 mm²");
}

TEST(Format, FractionIsNoFinerThanItsSpreadEarns) {
    EXPECT_EQ(around(43.3, 0.12, Measure::Length, kFeet), "3'-7 5/16\" ± 0.12 in");
    EXPECT_EQ(around(43.3, 2.0, Measure::Length, kFeet), "3'-7 1/4\" ± 2.0 in");
    EXPECT_EQ(around(43.3, 20.0, Measure::Length, kFeet), "3'-7\" ± 20 in");
    EXPECT_EQ(earnedFraction(0.0, 64), 64);
    EXPECT_EQ(earnedFraction(1.0, 64), 8);
    EXPECT_EQ(earnedFraction(100.0, 64), 1);
    EXPECT_EQ(shownValue(43.2, 43.3, 43.4, Measure::Length, kFeet).rounding,
              "rounded by +0.013 in");
}

TEST(Format, ValueWithoutASpreadStandsAlone) {
    EXPECT_EQ(valueText(43.3125, Measure::Length, kFeet), "3'-7 5/16\"");
    EXPECT_EQ(valueText(43.3125, Measure::Length, kSet), "43 5⁄16″");
    EXPECT_EQ(valueText(10.0, Measure::Length, kMillimetres), "254 mm");
    EXPECT_EQ(valueText(-1.5, Measure::Length, kInches), "-1.5 in");
    EXPECT_EQ(valueText(-0.000001, Measure::Length, kInches), "0 in");
    EXPECT_EQ(plusMinus(4.0, 4.0, 4.0, Measure::Number, kInches), "4");
}

TEST(Format, ToleranceIsNeverABarePlusMinus) {
    EXPECT_EQ(allowance(0.0625, Measure::Length, kFeet), "allow ± 1/16\"");
    EXPECT_EQ(allowance(0.0625, Measure::Length, kSet), "allow ± 1⁄16″");
    EXPECT_EQ(allowance(0.02, Measure::Length, kFeet), "allow ± 0.02 in");
    EXPECT_EQ(allowance(0.0625, Measure::Length, kMillimetres), "allow ± 1.59 mm");
}

TEST(Format, UncertaintyColumnHasTwoDigits) {
    EXPECT_EQ(uText(0.0612, Measure::Length, kInches), "0.061 in");
    EXPECT_EQ(uText(0.0, Measure::Length, kInches), "0 in");
}

RC_GTEST_PROP(FormatProperty, PrintedValueLiesWithinATwentiethOfItsSpreadOrHalfAStep, ()) {
    const double value = *rc::gen::inRange(-10'000'000, 10'000'000) / 1237.0;
    const double half = *rc::gen::inRange(1, 1'000'000) / 9973.0;
    const auto style =
        *rc::gen::element(LengthStyle::Decimal, LengthStyle::InchFraction, LengthStyle::FeetInches);
    const auto unit = *rc::gen::element(Unit::Inch, Unit::Millimetre, Unit::Centimetre);
    const Display display{unit, style, 32, Typesetting::Typographic};
    const ShownValue shown =
        shownValue(value - half, value, value + half, Measure::Length, display);
    const Result<Written> read =
        parseQuantity(shown.value, Measure::Length, displayUnit(Measure::Length, display));
    RC_ASSERT(read.has_value());
    const double step = style == LengthStyle::Decimal ? half / 10 : 1.0 / 32 + 0.4 * half;
    RC_ASSERT(std::abs(read->canonical - value) <= 0.5 * step * (1 + 1e-6) + 1e-9);
}

}  // namespace
}  // namespace evidence::quantity

#include "evidence-core/quantity/unit.h"

#include <gtest/gtest.h>

namespace evidence::quantity {
namespace {

TEST(Unit, EveryNameReadsBackAsItself) {
    for (int i = 0; i <= static_cast<int>(Unit::Percent); ++i) {
        const auto unit = static_cast<Unit>(i);
        const Result<Unit> read = unitNamed(nameOf(unit));
        ASSERT_TRUE(read) << nameOf(unit);
        EXPECT_EQ(*read, unit);
    }
}

TEST(Unit, ReadsWhatPeopleWrite) {
    EXPECT_EQ(unitNamed("in."), Unit::Inch);
    EXPECT_EQ(unitNamed("MM"), Unit::Millimetre);
    EXPECT_EQ(unitNamed("sq. in."), Unit::SquareInch);
    EXPECT_EQ(unitNamed("sq.in."), Unit::SquareInch);
    EXPECT_EQ(unitNamed("mm²"), Unit::SquareMillimetre);
    EXPECT_EQ(unitNamed("ft^3"), Unit::CubicFoot);
    EXPECT_EQ(unitNamed("°"), Unit::Degree);
    EXPECT_EQ(unitNamed("lbs."), Unit::Pound);
}

TEST(Unit, RefusesATonAndAWrongMeasure) {
    EXPECT_EQ(unitNamed("tons").error().code, Code::BadUnit);
    EXPECT_EQ(unitNamed("furlong").error().code, Code::BadUnit);
    EXPECT_EQ(unitNamed("kg", Measure::Length).error().code, Code::BadUnit);
    EXPECT_EQ(unitNamed("kg", Measure::Mass), Unit::Kilogram);
}

// Factors: international yard and pound agreement (1959); BIPM SI brochure for arc units.
TEST(Unit, FactorsAreTheDefinedOnes) {
    EXPECT_EQ(toCanonical(25.4, Unit::Millimetre), 1.0);
    EXPECT_EQ(toCanonical(2.54, Unit::Centimetre), 1.0);
    EXPECT_EQ(fromCanonical(36.0, Unit::Metre), 0.9144);
    EXPECT_EQ(toCanonical(1.0, Unit::Yard), 36.0);
    EXPECT_EQ(toCanonical(0.45359237, Unit::Kilogram), 1.0);
    EXPECT_EQ(toCanonical(16.0, Unit::Ounce), 1.0);
    EXPECT_DOUBLE_EQ(fromCanonical(1.0, Unit::CubicCentimetre), 16.387064);
    EXPECT_DOUBLE_EQ(fromCanonical(1.0, Unit::SquareCentimetre), 6.4516);
    EXPECT_DOUBLE_EQ(toCanonical(1.0, Unit::Litre), 1000.0 / 16.387064);
    EXPECT_DOUBLE_EQ(fromCanonical(toCanonical(90.0, Unit::ArcMinute), Unit::Degree), 1.5);
}

TEST(Unit, ConversionThereAndBackAgrees) {
    for (int i = 0; i <= static_cast<int>(Unit::Percent); ++i) {
        const auto unit = static_cast<Unit>(i);
        EXPECT_DOUBLE_EQ(fromCanonical(toCanonical(3.7, unit), unit), 3.7) << nameOf(unit);
        EXPECT_DOUBLE_EQ(factorToCanonical(unit), toCanonical(1.0, unit)) << nameOf(unit);
        EXPECT_EQ(measureOf(canonicalUnit(measureOf(unit))), measureOf(unit));
        EXPECT_EQ(factorToCanonical(canonicalUnit(measureOf(unit))), 1.0);
    }
}

}  // namespace
}  // namespace evidence::quantity

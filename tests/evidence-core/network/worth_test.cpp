#include "evidence-core/network/worth.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

/// The defaults table of domain.md and "Steps of numbers".
namespace {

using namespace evidence;
using network::spreadOf;
using network::SpreadQuery;
using network::WrittenValue;
using quantity::Measure;
using quantity::Unit;
using record::Basis;

constexpr double kSqrt3 = std::numbers::sqrt3;

WrittenValue read(const record::Written& written, Measure measure = Measure::Length,
                  Unit unit = Unit::Inch) {
    auto value = network::readWritten(written, std::nullopt, measure, unit, "/x");
    EXPECT_TRUE(value.has_value());
    return value.value_or(WrittenValue{});
}

double defaultU(const WrittenValue& value, SpreadQuery q) {
    const auto spread = spreadOf(value, q, {}, "/x");
    EXPECT_TRUE(spread.has_value());
    EXPECT_TRUE(spread->byDefault);
    return spread->u;
}

SpreadQuery basis(Basis b) {
    SpreadQuery q;
    q.basis = b;
    return q;
}

TEST(Default, AFigureIsGoodToHalfTheFinestStepOfItsSheet) {
    SpreadQuery q = basis(Basis::Figured);
    q.figuredStep = 1.0 / 16;
    EXPECT_NEAR(defaultU(read(std::string("3 1/2")), q), 1.0 / 32 / kSqrt3, 1e-15);
}

TEST(Default, AboutNineFeetIsGoodToSixInches) {
    EXPECT_NEAR(defaultU(read(std::string("about 9 ft")), basis(Basis::Stated)), 6 / kSqrt3, 1e-12);
    EXPECT_EQ(network::effectiveBasis(Basis::Figured, read(std::string("about 9 ft"))),
              Basis::Stated);
}

TEST(Default, AJsonNumbersLastDecimalIsItsStep) {
    EXPECT_NEAR(defaultU(read(record::Number{2.5, "2.50"}), basis(Basis::Stated)), 0.005 / kSqrt3,
                1e-15);
    EXPECT_NEAR(defaultU(read(record::Number{112, "112"}), basis(Basis::Told)), 0.5 / kSqrt3,
                1e-15);
}

TEST(Default, AnInstrumentGivesItsOwn) {
    const auto gauged = [](const char* instrument, double value) {
        SpreadQuery q = basis(Basis::Gauged);
        q.instrument = instrument;
        return defaultU(WrittenValue{value, 0, Unit::Inch, false}, q) * kSqrt3;
    };
    EXPECT_NEAR(gauged("Vernier caliper", 2), 0.002, 1e-15);
    EXPECT_NEAR(gauged("micrometer", 2), 0.002, 1e-15);
    EXPECT_NEAR(gauged("steel tape", 20), 1.0 / 16, 1e-15);
    EXPECT_NEAR(gauged("steel tape", 240), 1.0 / 8, 1e-15);
    EXPECT_NEAR(gauged("", 2), 1.0 / 64, 1e-15);
}

TEST(Floor, AGuessCannotClaimASmallSpread) {
    SpreadQuery q = basis(Basis::Guessed);
    EXPECT_NEAR(defaultU(read(record::Number{100, "100"}), q), 3 / kSqrt3, 1e-12);
    EXPECT_NEAR(defaultU(read(record::Number{2, "2"}), q), 0.25 / kSqrt3, 1e-12);
    q.u = 0.01;
    const auto tight = spreadOf(read(record::Number{100, "100"}), q, {}, "/x").value();
    EXPECT_NEAR(tight.u, 3 / kSqrt3, 1e-12);
    EXPECT_TRUE(tight.floored);
    q.floorReason = true;
    EXPECT_DOUBLE_EQ(spreadOf(read(record::Number{100, "100"}), q, {}, "/x")->u, 0.01);
    q.floorReason = false;
    q.u = 5;
    EXPECT_FALSE(spreadOf(read(record::Number{100, "100"}), q, {}, "/x")->floored);
}

TEST(Floor, AnAnalogyIsNeverBetterThanTwoPercent) {
    SpreadQuery q = basis(Basis::Analogous);
    q.u = 0.1;
    EXPECT_DOUBLE_EQ(spreadOf(read(record::Number{50, "50"}), q, {}, "/x")->u, 1.0);
}

TEST(Given, ShapesBecomeStandardUncertainties) {
    SpreadQuery q = basis(Basis::Stated);
    const auto value = read(record::Number{50, "50"});
    q.halfWidth = 1;
    EXPECT_NEAR(spreadOf(value, q, {}, "/x")->u, 0.577350269, 1e-9);
    q.shape = record::Shape::Triangular;
    EXPECT_NEAR(spreadOf(value, q, {}, "/x")->u, 0.408248290, 1e-9);
    q.shape = record::Shape::Normal95;
    EXPECT_NEAR(spreadOf(value, q, {}, "/x")->u, 1 / 1.959963985, 1e-9);
}

TEST(Given, IsInTheUnitWrittenInTheValue) {
    SpreadQuery q = basis(Basis::Stated);
    q.u = 2.54;
    EXPECT_NEAR(spreadOf(read(std::string("1605 mm")), q, {}, "/x")->u, 0.1, 1e-12);
}

TEST(Repeats, CarryTheirDegreesOfFreedom) {
    SpreadQuery q = basis(Basis::Gauged);
    q.u = 0.01;
    q.dof = 5;  // n = 6: √(5/3), JCGM 101:2008, 6.4.9
    EXPECT_NEAR(spreadOf(read(record::Number{5, "5"}), q, {}, "/x")->u, 0.01 * std::sqrt(5.0 / 3),
                1e-12);
    q.dof = 1;
    EXPECT_NEAR(spreadOf(read(record::Number{5, "5"}), q, {}, "/x")->u,
                std::hypot(0.01, 1.0 / 64 / kSqrt3), 1e-12);
}

TEST(Refused, AnInterpolatedValueWithoutUncertainty) {
    const auto spread =
        spreadOf(read(record::Number{5, "5"}), basis(Basis::Interpolated), {}, "/r");
    ASSERT_FALSE(spread.has_value());
    EXPECT_EQ(spread.error().code, Code::MissingKey);
    EXPECT_EQ(spread.error().place, "/r/u");
}

TEST(Refused, AReadingThatCannotBeParsedNamesItsPlace) {
    record::Dimension d;
    record::Reading r;
    r.value = std::string("five or so");
    const auto checked = network::checkReading(r, d, "/readings/3");
    ASSERT_FALSE(checked.has_value());
    EXPECT_TRUE(checked.error().place.starts_with("/readings/3/value")) << checked.error().place;
}

}  // namespace

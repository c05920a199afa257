#include "evidence-core/network/worth.h"
#include "evidence-core/statistics/monte_carlo.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

// Standard uncertainties of limits and of a scale's divisions: JCGM 100:2008, 4.3 and F.2.2.1.

namespace {

using namespace evidence;

TEST(GuideClause43, DivisorsOfAHalfWidth) {
    using namespace statistics;
    EXPECT_NEAR(standardDeviation(rectangularDraw(1)), 0.577350269, 1e-8);
    EXPECT_NEAR(standardDeviation(triangularDraw(1)), 0.408248290, 1e-8);
    EXPECT_NEAR(standardDeviation(arcSineDraw(1)), 0.707106781, 1e-8);
    // A trapezoid of ratio β is the sum of two rectangles of half-widths (1 ± β)/2.
    EXPECT_NEAR(std::hypot(standardDeviation(rectangularDraw(0.75)),
                           standardDeviation(rectangularDraw(0.25))),
                0.456435465, 1e-8);
    // Even odds, and two in three, that a normal lies inside: the guide prints 1.48 and 1.
    EXPECT_NEAR(1 / quantity::normalQuantile(0.75), 1.482602, 1e-6);
    EXPECT_NEAR(1 / quantity::normalQuantile(5.0 / 6), 1.033676, 2e-5);
}

struct Step {
    double step;
    double inches, millimetres;
};

class ScaleStep : public ::testing::TestWithParam<Step> {};

TEST_P(ScaleStep, IsARectangleOfHalfAStep) {
    network::WrittenValue value;
    value.value = 3.5;
    value.unit = quantity::Unit::Inch;
    network::SpreadQuery query;
    query.basis = record::Basis::Figured;
    query.roundedTo = GetParam().step;
    const auto spread = network::spreadOf(value, query, {}, "/readings/0");
    ASSERT_TRUE(spread);
    EXPECT_NEAR(spread->u, GetParam().inches, 1e-9);
    EXPECT_NEAR(spread->u * 25.4, GetParam().millimetres, 1e-9);
    EXPECT_EQ(spread->shape, network::ErrorShape::Rectangular);
}

INSTANTIATE_TEST_SUITE_P(Steps, ScaleStep,
                         ::testing::Values(Step{1.0 / 16, 0.018042196, 0.458271776},
                                           Step{1.0 / 32, 0.009021098, 0.229135888},
                                           Step{1.0 / 64, 0.004510549, 0.114567944}));

// The difference of two readings to one step is a triangle: step/√6.
TEST(DifferenceOfTwoRoundedReadings, IsATriangle) {
    EXPECT_NEAR(statistics::standardDeviation(statistics::triangularDraw(1.5875)), 0.648094, 1e-6);
}

}  // namespace

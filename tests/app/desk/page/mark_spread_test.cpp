#include "app/desk/page/mark_spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace {

namespace record = evidence::record;

using app::desk::page::spreadOf;

TEST(MarkSpread, PlacedPointHasARoundOneOfItsStandardUncertainty) {
    record::Mark mark;
    mark.points = {{10, 20}};
    const auto spread = spreadOf(mark, 0.5);
    ASSERT_EQ(spread.points.size(), 1U);
    EXPECT_NEAR(spread.points[0].major, 0.5 * 2.4477, 1e-12);
    EXPECT_NEAR(spread.points[0].minor, 0.5 * 2.4477, 1e-12);
    mark.uPx = 2;
    EXPECT_NEAR(spreadOf(mark, 0.5).points[0].major, 2 * 2.4477, 1e-12);
}

TEST(MarkSpread, CovarianceTurnsTheEllipse) {
    // 3 px along 30°, 1 px across.
    const double angle = std::numbers::pi / 6;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    record::Mark mark;
    mark.points = {{0, 0}};
    mark.covariance = {{9 * c * c + s * s, 8 * c * s}, {8 * c * s, 9 * s * s + c * c}};
    const auto ellipse = spreadOf(mark, 0.5).points.at(0);
    EXPECT_NEAR(ellipse.major, 3 * 2.4477, 1e-9);
    EXPECT_NEAR(ellipse.minor, 2.4477, 1e-9);
    EXPECT_NEAR(ellipse.angle, angle, 1e-12);
}

TEST(MarkSpread, FittedCircleHasABandAboutItsRim) {
    record::Mark mark;
    mark.kind = record::MarkKind::Circle;
    mark.points = {{0, 0}, {1, 1}, {2, 0}};
    mark.fit = record::ConicFit{{1, 0}, 1.0, {}, {}, {{1, 0, 0}, {0, 1, 0}, {0, 0, 0.04}}};
    const auto spread = spreadOf(mark, 0.5);
    EXPECT_TRUE(spread.points.empty());
    ASSERT_TRUE(spread.rim);
    EXPECT_NEAR(spread.rim->halfWidth, 1.96 * 0.2, 1e-12);
}

}  // namespace

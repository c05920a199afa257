#include "evidence-core/frame/uniform.h"

#include "evidence-core/frame/off_plane.h"
#include "evidence-core/frame/printed.h"
#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace evidence::frame {
namespace {

TEST(Uniform, LengthFollowsTheWorkedExample) {
    // By hand, JCGM 100:2008, 5.1.2 (docs/method/scales.md): p1 (100,200), p2 (1300,1100), L 60 in
    // ± 0.05, 0.5 px per axis.
    const double scale = 60.0 / 1500.0;
    const Derived<5> reference = uniformLength(scale, Point(100, 200), Point(1300, 1100));
    EXPECT_NEAR(reference.value, 60, 1e-12);
    const double uPixels = 0.5 * reference.jacobian.tail<4>().norm() / scale;
    EXPECT_NEAR(uPixels, 0.7071, 5e-5);
    const double uScale = scale * std::hypot(0.05 / 60, uPixels / 1500);
    // sqrt((0.05/60)² + (0.7071/1500)²) carried out in full; the note prints 9.572e-4.
    EXPECT_NEAR(uScale / scale, 9.574e-4, 5e-8);

    const Derived<5> length = uniformLength(scale, Point(0, 0), Point(750, 0));
    EXPECT_NEAR(length.value, 30, 1e-12);
    const double u =
        std::hypot(length.jacobian(0) * uScale, 0.5 * length.jacobian.tail<4>().norm());
    EXPECT_NEAR(u, 0.0403, 5e-5);
}

TEST(Uniform, JacobianEqualsNumericalDifferences) {
    Eigen::VectorXd z(5);
    z << 0.037, 120.5, 88.25, 1430.75, 610.5;
    const auto f = [](const Eigen::VectorXd& v) {
        return uniformLength(v(0), Point(v(1), v(2)), Point(v(3), v(4)));
    };
    const Eigen::VectorXd numeric =
        test::numericJacobian([&f](const Eigen::VectorXd& v) { return f(v).value; }, z);
    EXPECT_LT((f(z).jacobian.transpose() - numeric).cwiseAbs().maxCoeff(), 1e-6);
}

TEST(Uniform, ParallelWithinIsOneMinusTheCosine) {
    const double five = 5 * std::numbers::pi / 180;
    EXPECT_NEAR(parallelWithinRelative(five), 1 - std::cos(five), 1e-15);
    EXPECT_NEAR(parallelWithinRelative(1e-9), 5e-19, 1e-24);
}

TEST(Printed, ScaleIsDrawnScaleOverResolution) {
    const PrintedScale scale = printedScale(400, 24, kPrintedRelativeDefault);
    EXPECT_DOUBLE_EQ(scale.inchesPerPixel, 0.06);
    EXPECT_DOUBLE_EQ(scale.u, 0.0003);
}

TEST(OffPlane, FactorFollowsTheWorkedExample) {
    // By hand, central projection (docs/method/scales.md): D = 200 in; q = 1, 5, 20 in magnify by
    // 0.503, 2.564, 11.11 %.
    EXPECT_NEAR(1 / offPlaneFactor(1, 200).value - 1, 0.00503, 5e-6);
    EXPECT_NEAR(1 / offPlaneFactor(5, 200).value - 1, 0.02564, 5e-6);
    EXPECT_NEAR(1 / offPlaneFactor(20, 200).value - 1, 0.1111, 5e-5);
}

TEST(OffPlane, JacobianEqualsNumericalDifferences) {
    Eigen::VectorXd z(2);
    z << -4, 480;
    const Eigen::VectorXd numeric = test::numericJacobian(
        [](const Eigen::VectorXd& v) { return offPlaneFactor(v(0), v(1)).value; }, z);
    EXPECT_LT((offPlaneFactor(-4, 480).jacobian.transpose() - numeric).cwiseAbs().maxCoeff(),
              1e-10);
}

}  // namespace
}  // namespace evidence::frame

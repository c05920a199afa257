#include "evidence-core/frame/pixel_geometry.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

#include <numbers>
#include <random>

namespace evidence::frame {
namespace {

using test::numericJacobian;

template <int N>
Eigen::Matrix<double, N, 1> randomLayout(std::mt19937& random) {
    std::uniform_real_distribution<double> place(-500, 1500);
    Eigen::Matrix<double, N, 1> z;
    for (int i = 0; i < N; ++i) {
        z(i) = place(random);
    }
    return z;
}

Point at(const Eigen::VectorXd& z, int first) {
    return {z(first), z(first + 1)};
}

template <int N, class F>
void expectJacobianMatches(const F& f, const Eigen::VectorXd& z) {
    const Derived<N> derived = f(z);
    const Eigen::VectorXd numeric =
        numericJacobian([&f](const Eigen::VectorXd& v) { return f(v).value; }, z);
    const double scale = 1e-12 + numeric.cwiseAbs().maxCoeff();
    EXPECT_LT((derived.jacobian.transpose() - numeric).cwiseAbs().maxCoeff(), 1e-6 * scale)
        << derived.jacobian << "\n"
        << numeric.transpose();
}

TEST(PixelGeometry, PointToPointIsTheThreeFourFiveTriangle) {
    EXPECT_DOUBLE_EQ(pointToPoint({1, 2}, {4, 6}).value, 5);
}

TEST(PixelGeometry, PointToLineIsNeverNegative) {
    EXPECT_DOUBLE_EQ(pointToLine({5, 7}, {0, 0}, {10, 0}).value, 7);
    EXPECT_DOUBLE_EQ(pointToLine({5, -7}, {0, 0}, {10, 0}).value, 7);
    EXPECT_DOUBLE_EQ(pointToLine({5, -7}, {10, 0}, {0, 0}).value, 7);
}

TEST(PixelGeometry, LineToLineIgnoresTheOrderOfALinesPoints) {
    const double forward = lineToLine({0, 0}, {100, 0}, {20, 30}, {150, 30}).value;
    const double turned = lineToLine({0, 0}, {100, 0}, {150, 30}, {20, 30}).value;
    EXPECT_DOUBLE_EQ(forward, 30);
    EXPECT_DOUBLE_EQ(turned, 30);
}

TEST(PixelGeometry, LineToLineMeasuresAtTheMiddleOfTheCommonRun) {
    // Second line rises 0.02 per px; common run 40 … 100, so the middle is near x = 70.
    const double slope = 0.02;
    const auto y = [slope](double x) { return 30 + slope * (x - 70); };
    const double distance = lineToLine({0, 0}, {100, 0}, {40, y(40)}, {200, y(200)}).value;
    EXPECT_NEAR(distance, 30, 0.02);
    const double elsewhere = lineToLine({0, 0}, {300, 0}, {40, y(40)}, {200, y(200)}).value;
    EXPECT_NEAR(elsewhere, y(120), 0.02);
}

TEST(PixelGeometry, AngleTellsAcuteFromObtuseByDirection) {
    const double sixty = std::numbers::pi / 3;
    const Point up(std::cos(sixty), std::sin(sixty));
    EXPECT_NEAR(angleBetween({0, 0}, {1, 0}, {0, 0}, up).value, sixty, 1e-14);
    EXPECT_NEAR(angleBetween({0, 0}, {1, 0}, up, {0, 0}).value, std::numbers::pi - sixty, 1e-14);
    EXPECT_NEAR(angleBetween({0, 0}, {1, 0}, {3, 5}, {3, 4}).value, std::numbers::pi / 2, 1e-14);
}

TEST(PixelGeometry, JacobiansEqualNumericalDifferences) {
    std::mt19937 random(20261125);
    for (int trial = 0; trial < 200; ++trial) {
        expectJacobianMatches<4>(
            [](const Eigen::VectorXd& z) { return pointToPoint(at(z, 0), at(z, 2)); },
            randomLayout<4>(random));
        expectJacobianMatches<6>(
            [](const Eigen::VectorXd& z) { return pointToLine(at(z, 0), at(z, 2), at(z, 4)); },
            randomLayout<6>(random));
        expectJacobianMatches<8>(
            [](const Eigen::VectorXd& z) {
                return angleBetween(at(z, 0), at(z, 2), at(z, 4), at(z, 6));
            },
            randomLayout<8>(random));
        expectJacobianMatches<8>(
            [](const Eigen::VectorXd& z) {
                return sineBetween(at(z, 0), at(z, 2), at(z, 4), at(z, 6));
            },
            randomLayout<8>(random));
        expectJacobianMatches<8>(
            [](const Eigen::VectorXd& z) {
                return cosineBetween(at(z, 0), at(z, 2), at(z, 4), at(z, 6));
            },
            randomLayout<8>(random));
    }
}

TEST(PixelGeometry, LineToLineJacobianEqualsNumericalDifferences) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> wobble(-20, 20);
    for (int trial = 0; trial < 200; ++trial) {
        Eigen::VectorXd z(8);
        z << 0, 0, 400, 100, 60, 150, 500, 250;
        for (Eigen::Index i = 0; i < 8; ++i) {
            z(i) += wobble(random);
        }
        expectJacobianMatches<8>(
            [](const Eigen::VectorXd& v) {
                return lineToLine(at(v, 0), at(v, 2), at(v, 4), at(v, 6));
            },
            z);
    }
}

}  // namespace
}  // namespace evidence::frame

#include "evidence-core/frame/circle.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace evidence::frame {
namespace {

TEST(RimCircle, PassesThroughThreePoints) {
    const std::vector<Point> rim = {{13, 7}, {3, 17}, {-7, 7}};
    const auto circle = circleThrough(rim);
    ASSERT_TRUE(circle);
    EXPECT_NEAR(circle->centre.x(), 3, 1e-10);
    EXPECT_NEAR(circle->centre.y(), 7, 1e-10);
    EXPECT_NEAR(circle->radius, 10, 1e-10);
    EXPECT_NEAR(circle->rms, 0, 1e-10);
}

TEST(RimCircle, MatchesThePublishedGeometricFit) {
    // W. Gander, G. H. Golub, R. Strebel, "Least-squares fitting of circles and ellipses",
    // BIT 34 (1994) 558-578, section 4 example: points and geometric solution (values from memory).
    const std::vector<Point> rim = {{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}};
    const auto circle = circleThrough(rim);
    ASSERT_TRUE(circle);
    EXPECT_NEAR(circle->centre.x(), 4.7398, 5e-5);
    EXPECT_NEAR(circle->centre.y(), 2.9835, 5e-5);
    EXPECT_NEAR(circle->radius, 4.7142, 5e-5);
}

TEST(RimCircle, RefusesPointsOnOneLine) {
    EXPECT_FALSE(circleThrough(std::vector<Point>{{0, 0}, {10, 10}, {20, 20}}));
    EXPECT_FALSE(circleThrough(std::vector<Point>{{5, 5}, {5, 5}, {5, 5}}));
    EXPECT_FALSE(circleThrough(std::vector<Point>{{0, 0}, {10, 3}}));
}

TEST(RimCircle, JacobianEqualsNumericalDifferences) {
    Eigen::VectorXd z(10);
    z << 101, 52, 49, 99, 3, 48, 52, 1, 88, 84;
    const auto solve = [](const Eigen::VectorXd& v) {
        std::vector<Point> rim;
        for (Eigen::Index i = 0; i < v.size(); i += 2) {
            rim.emplace_back(v(i), v(i + 1));
        }
        return circleThrough(rim);
    };
    const auto circle = solve(z);
    ASSERT_TRUE(circle);
    const auto component = [&solve](int which) {
        return [&solve, which](const Eigen::VectorXd& v) {
            const auto c = solve(v);
            const double parts[] = {c->centre.x(), c->centre.y(), c->radius};
            return parts[which];
        };
    };
    for (int which = 0; which < 3; ++which) {
        const Eigen::VectorXd numeric = test::numericJacobian(component(which), z);
        EXPECT_LT((circle->jacobian.row(which).transpose() - numeric).cwiseAbs().maxCoeff(), 1e-6);
    }
}

}  // namespace
}  // namespace evidence::frame

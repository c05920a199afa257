#include "evidence-core/frame/ellipse.h"

#include "evidence-core/frame/circle.h"
#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace evidence::frame {
namespace {

/// W. Gander, G. Golub and R. Strebel, BIT 34 (1994), 558–578: the eight points of their ellipse.
const std::vector<Point> kEight = {{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}, {6, 2}, {8, 4}};

TEST(Ellipse, EightPointsGiveGandersGeometricFit) {
    const auto fit = ellipseThrough(kEight);
    ASSERT_TRUE(fit);
    // Printed: 2.6996, 3.8160, 6.5187, 3.0319, 0.3596; norm of the distances 1.1719. Further
    // digits: the best of 28 starts of an orthogonal-distance minimisation.
    EXPECT_NEAR(fit->ellipse.centre.x(), 2.69961248, 1e-5);
    EXPECT_NEAR(fit->ellipse.centre.y(), 3.81595679, 1e-5);
    EXPECT_NEAR(fit->ellipse.a, 6.51872195, 1e-5);
    EXPECT_NEAR(fit->ellipse.b, 3.03188596, 1e-5);
    EXPECT_NEAR(fit->ellipse.angle, 0.35962426, 1e-5);
    EXPECT_NEAR(fit->squares, 1.37330554, 1e-7);
}

TEST(Ellipse, IsTheSameFarFromTheOrigin) {
    std::vector<Point> moved;
    for (const Point& p : kEight) {
        moved.emplace_back(p.x() + 1000, p.y() + 1000);
    }
    const auto fit = ellipseThrough(moved);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->ellipse.centre.x() - 1000, 2.69961248, 1e-5);
    EXPECT_NEAR(fit->ellipse.a, 6.51872195, 1e-5);
}

TEST(Circle, PointsOfTheSamePaperGiveItsGeometricCircles) {
    // The circle of their six points: printed 4.7398, 2.9835, 4.7142 (from memory); digits
    // recomputed. Through the eight: recomputed.
    const std::vector<Point> six(kEight.begin(), kEight.begin() + 6);
    const auto circle = circleThrough(six);
    ASSERT_TRUE(circle);
    EXPECT_NEAR(circle->centre.x(), 4.73978241, 1e-6);
    EXPECT_NEAR(circle->centre.y(), 2.98353271, 1e-6);
    EXPECT_NEAR(circle->radius, 4.71422603, 1e-6);
    const auto eight = circleThrough(kEight);
    ASSERT_TRUE(eight);
    EXPECT_NEAR(eight->centre.x(), 4.84014118, 1e-6);
    EXPECT_NEAR(eight->radius, 3.39068197, 1e-6);
}

TEST(Ellipse, FootIsTheNearestPoint) {
    const Ellipse e{{10, 20}, 100, 60, 0.4};
    std::mt19937 random(3);
    std::uniform_real_distribution<double> place(-150, 150);
    for (int trial = 0; trial < 300; ++trial) {
        const Point p(10 + place(random), 20 + place(random));
        const double distance = (e.at(e.foot(p)) - p).norm();
        double least = 1e9;
        for (int i = 0; i < 3600; ++i) {
            least = std::min(least, (e.at(i * std::numbers::pi / 1800) - p).norm());
        }
        // Deep inside, two feet are nearly alike; fitted rims are never there.
        if (least < 30) {
            EXPECT_LE(distance, least + 1e-6) << p.transpose();
        }
    }
}

struct Arc {
    const char* name;
    double degrees;
};
class EllipseArc : public testing::TestWithParam<Arc> {};

TEST_P(EllipseArc, CovarianceIsTheScatterOfManyFits) {
    const Ellipse truth{{200, 150}, 100, 60, 0.5};
    std::mt19937 random(11);
    std::normal_distribution<double> noise(0, 0.3);
    double squares = 0;
    double claimed = 0;
    double bias = 0;
    constexpr int kTrials = 300;
    for (int trial = 0; trial < kTrials; ++trial) {
        std::vector<Point> rim;
        for (int i = 0; i < 60; ++i) {
            const double t = GetParam().degrees * std::numbers::pi / 180 * i / 60;
            rim.push_back(truth.at(t) + Point(noise(random), noise(random)));
        }
        const auto fit = ellipseThrough(rim);
        ASSERT_TRUE(fit);
        const double error = fit->ellipse.a - truth.a;
        bias += error / kTrials;
        squares += error * error / kTrials;
        claimed += 0.09 * fit->covariance(2, 2) / kTrials;
    }
    EXPECT_NEAR(std::sqrt(squares / claimed), 1, 0.15);
    EXPECT_LT(std::abs(bias), 4 * std::sqrt(claimed / kTrials) + 0.1 * std::sqrt(claimed));
}

INSTANTIATE_TEST_SUITE_P(Arcs, EllipseArc,
                         testing::Values(Arc{"Whole", 360}, Arc{"Half", 180}, Arc{"Third", 140}),
                         [](const auto& row) { return row.param.name; });

TEST(Ellipse, JacobianEqualsNumericalDifferencesWherePointsFit) {
    const Ellipse truth{{200, 150}, 100, 60, 0.5};
    Eigen::VectorXd z(16);
    for (int i = 0; i < 8; ++i) {
        z.segment<2>(2 * i) = truth.at(0.7 * i);
    }
    const auto f = [](const Eigen::VectorXd& v) {
        std::vector<Point> rim;
        for (Eigen::Index i = 0; i < v.size(); i += 2) {
            rim.emplace_back(v(i), v(i + 1));
        }
        const auto e = ellipseThrough(rim)->ellipse;
        Eigen::VectorXd five(5);
        five << e.centre, e.a, e.b, e.angle;
        return five;
    };
    std::vector<Point> rim;
    for (int i = 0; i < 8; ++i) {
        rim.emplace_back(z.segment<2>(2 * i));
    }
    EXPECT_LT(test::differenceOf(ellipseThrough(rim)->jacobian, test::numericJacobianRows(f, z)),
              1e-4);
}

TEST(Ellipse, WhatHasNoneIsRefused) {
    EXPECT_FALSE(ellipseThrough(std::vector<Point>{{0, 0}, {1, 1}, {2, 2}, {3, 3}}));
    EXPECT_FALSE(ellipseThrough(std::vector<Point>{{0, 0}, {1, 1}, {2, 2}, {3, 3}, {4, 4}}));
    EXPECT_FALSE(ellipseThrough(std::vector<Point>{{5, 5}, {5, 5}, {5, 5}, {5, 5}, {5, 5}}));
}

}  // namespace
}  // namespace evidence::frame

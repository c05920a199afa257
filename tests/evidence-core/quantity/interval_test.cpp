#include "evidence-core/quantity/interval.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <chrono>
#include <cmath>
#include <numbers>
#include <vector>

namespace evidence::quantity {
namespace {

std::vector<Component> each(std::initializer_list<double> us, Shape shape) {
    std::vector<Component> components;
    for (const double u : us) components.push_back({u, shape});
    return components;
}

// P(|X| ≤ h) by inverting the characteristic function: an independent way to the same number.
// (2/π) ∫ φ(t) sin(ht)/t dt, Simpson's rule; needs a normal share so that φ dies away.
double probabilityWithin(double h, const std::vector<Component>& components) {
    const auto characteristic = [&](double t) {
        double phi = 1.0;
        for (const Component& c : components) {
            if (c.shape == Shape::Normal) {
                phi *= std::exp(-0.5 * c.u * c.u * t * t);
            } else if (c.shape == Shape::Rectangular) {
                const double x = c.u * std::sqrt(3.0) * t;
                phi *= x == 0.0 ? 1.0 : std::sin(x) / x;
            } else {
                const double x = c.u * std::sqrt(6.0) * t / 2.0;
                phi *= x == 0.0 ? 1.0 : std::pow(std::sin(x) / x, 2);
            }
        }
        return phi;
    };
    const double u = combinedU(components);
    const double top = 400.0 / u;
    const int steps = 400'000;
    const double step = top / steps;
    double sum = 0.0;
    for (int i = 0; i <= steps; ++i) {
        const double t = i * step;
        const double value = i == 0 ? h : characteristic(t) * std::sin(h * t) / t;
        sum += value * (i == 0 || i == steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0);
    }
    return 2.0 / std::numbers::pi * sum * step / 3.0;
}

// JCGM 101:2008, 9.2.2: four normals of u 1; published 3.92, 2 × 1.959964 exactly.
TEST(Interval, SumOfFourNormals) {
    EXPECT_NEAR(halfWidth95(each({1, 1, 1, 1}, Shape::Normal)), 3.9199279690801, 1e-12);
}

// JCGM 101:2008, 9.2.3: four rectangulars of u 1; published 3.88, exact value 3.8794067 from the
// exact fourth-order spline density.
TEST(Interval, SumOfFourRectangulars) {
    EXPECT_NEAR(halfWidth95(each({1, 1, 1, 1}, Shape::Rectangular)), 3.8794067, 5e-8);
}

// JCGM 101:2008, 9.2.4: rectangulars of u 1, 1, 1, 10; published 17.0, exact value 17.0158141.
TEST(Interval, OneRectangularDominatesThree) {
    EXPECT_NEAR(halfWidth95(each({1, 1, 1, 10}, Shape::Rectangular)), 17.0158141, 5e-8);
}

TEST(Interval, OneShapeAlone) {
    // Rectangular of half-width 1: 0.95; triangular: 1 − √0.05.
    EXPECT_NEAR(halfWidth95(each({1.0 / std::sqrt(3.0)}, Shape::Rectangular)), 0.95, 1e-12);
    EXPECT_NEAR(halfWidth95(each({1.0 / std::sqrt(6.0)}, Shape::Triangular)), 1.0 - std::sqrt(0.05),
                1e-10);
    EXPECT_EQ(halfWidth95({}), 0.0);
    EXPECT_EQ(halfWidth95(each({0.0}, Shape::Rectangular)), 0.0);
}

TEST(Interval, MixturesHoldTheirProbability) {
    const std::vector<std::vector<Component>> mixtures{
        {{1.0, Shape::Normal}, {1.0, Shape::Rectangular}},
        {{0.2, Shape::Normal}, {1.0, Shape::Rectangular}, {0.5, Shape::Triangular}},
        {{0.3, Shape::Normal}, {1.0, Shape::Triangular}, {1.0, Shape::Triangular}},
        {{1.0, Shape::Normal}, {0.06, Shape::Rectangular}, {0.04, Shape::Rectangular}},
    };
    for (const auto& mixture : mixtures) {
        EXPECT_NEAR(probabilityWithin(halfWidth95(mixture), mixture), 0.95, 1e-7);
    }
}

TEST(Interval, ManyRectangularsAreMergedWithoutHarm) {
    std::vector<Component> many(20, {1.0, Shape::Rectangular});
    many.push_back({0.5, Shape::Normal});
    EXPECT_NEAR(probabilityWithin(halfWidth95(many), many), 0.95, 1e-4);
    many.push_back({6.0, Shape::Rectangular});
    EXPECT_NEAR(probabilityWithin(halfWidth95(many), many), 0.95, 1e-4);
}

TEST(Interval, IsCutByLimitsUnlessNothingWouldRemain) {
    EXPECT_EQ(cutTo({1.0, 3.0}, 1.5, {}), (Interval{1.5, 3.0}));
    EXPECT_EQ(cutTo({1.0, 3.0}, {}, 2.0), (Interval{1.0, 2.0}));
    EXPECT_EQ(cutTo({1.0, 3.0}, 4.0, {}), (Interval{1.0, 3.0}));
}

TEST(Interval, StaysFastEnoughForEveryDimension) {
    const std::vector<Component> worst{{1.0, Shape::Normal},      {0.9, Shape::Rectangular},
                                       {0.8, Shape::Rectangular}, {0.7, Shape::Triangular},
                                       {0.6, Shape::Triangular},  {0.5, Shape::Rectangular}};
    const auto start = std::chrono::steady_clock::now();
    double sum = 0.0;
    for (int i = 0; i < 1000; ++i) sum += halfWidth95(worst);
    const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
    EXPECT_GT(sum, 0.0);
    RecordProperty("microseconds_each", std::to_string(took.count() / 1000));
    // A generous bound that unoptimised and sanitized builds meet too.
    EXPECT_LT(took.count() / 1000, 2000.0);
}

// NIST TN 1297 (1994), table B.1 (t factors); chi-square and normal quantiles as tabulated in
// Abramowitz and Stegun, tables 26.8 and 26.1. Recomputed figures of the project's check list.
TEST(Interval, QuantilesMatchTheTables) {
    EXPECT_NEAR(normalQuantile(0.975), 1.959963984540054, 1e-14);
    EXPECT_NEAR(normalQuantile(0.9995), 3.290527, 1e-6);
    EXPECT_NEAR(normalQuantile(0.9995) + normalQuantile(0.80), 4.132148, 1e-6);
    EXPECT_NEAR(chiSquareProbability(7.814728, 3), 0.05, 1e-7);
    EXPECT_NEAR(chiSquareProbability(27.488393, 15), 0.025, 1e-7);
    EXPECT_NEAR(studentT(0.95, 10), 2.2281, 1e-4);
    EXPECT_NEAR(studentT(0.99, 16), 2.920782, 1e-6);
    EXPECT_NEAR(repeatFactor(5), std::sqrt(2.0), 1e-15);
}

RC_GTEST_PROP(IntervalProperty, LiesBetweenOneAndAHalfAndTwoSpreads, ()) {
    const auto count = *rc::gen::inRange<std::size_t>(1, 12);
    std::vector<Component> components;
    for (std::size_t i = 0; i < count; ++i) {
        components.push_back(
            {*rc::gen::inRange(1, 1000) / 100.0,
             *rc::gen::element(Shape::Normal, Shape::Rectangular, Shape::Triangular)});
    }
    const double u = combinedU(components);
    const double half = halfWidth95(components);
    RC_ASSERT(half <= 2.0 * u);
    // One rectangle has 1.645 u; a little beside it adds to u before it reaches the 95 % point.
    RC_ASSERT(half >= 0.9 * std::sqrt(3.0) * u);
    std::vector<Component> reversed(components.rbegin(), components.rend());
    RC_ASSERT(std::abs(halfWidth95(reversed) - half) <= 1e-10 * half);
}

}  // namespace
}  // namespace evidence::quantity

#include "evidence-core/quantity/interval.h"
#include "evidence-core/statistics/monte_carlo.h"
#include "tests/checks/near.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

// JCGM 101:2008 (GUM Supplement 1), clause 9: propagation of distributions. The closed-form rows of
// 9.2 are also in tests/evidence-core/quantity/interval_test.cpp, for the intervals the network
// gives. Printed figures from memory, the others recomputed; drawn rows: u within 1 %, ends within
// 3 % of the interval's length.

namespace {

using namespace evidence::statistics;

constexpr std::uint64_t kSeed = 101;

void expectDrawn(const Propagated& drawn, double mean, double u, double low, double high) {
    EXPECT_RELATIVE(drawn.u, u, 0.01);
    EXPECT_NEAR(drawn.mean, mean, 0.03 * u);
    EXPECT_NEAR(drawn.shortest.low, low, 0.03 * (high - low));
    EXPECT_NEAR(drawn.shortest.high, high, 0.03 * (high - low));
}

double sum(std::span<const double> x) {
    double s = 0;
    for (const double each : x) s += each;
    return s;
}

TEST(Clause92, SumsOfFourInputs) {
    const double root3 = std::numbers::sqrt3;
    struct Row {
        std::vector<DrawShape> inputs;
        double u, halfWidth;
    };
    for (const auto& row : {Row{std::vector(4, normalDraw(1)), 2, 3.919928},
                            Row{std::vector(4, rectangularDraw(root3)), 2, 3.8794067},
                            Row{{rectangularDraw(root3), rectangularDraw(root3),
                                 rectangularDraw(root3), rectangularDraw(10 * root3)},
                                10.1488916,
                                17.0158141}}) {
        const auto drawn = propagate(row.inputs, sum, {.seed = kSeed, .count = 1000000});
        EXPECT_RELATIVE(drawn.u, row.u, 0.01);
        EXPECT_NEAR(drawn.symmetric.high, row.halfWidth, 0.01 * row.halfWidth);
        EXPECT_NEAR(drawn.symmetric.low, -row.halfWidth, 0.01 * row.halfWidth);
        std::vector<evidence::quantity::Component> parts;
        for (const auto& input : row.inputs)
            parts.push_back(
                {standardDeviation(input), input.law == DrawShape::Law::Normal
                                               ? evidence::quantity::Shape::Normal
                                               : evidence::quantity::Shape::Rectangular});
        EXPECT_RELATIVE(evidence::quantity::combinedU(parts), row.u, 1e-8);
        EXPECT_RELATIVE(evidence::quantity::halfWidth95(parts), row.halfWidth, 1e-6);
    }
}

// 9.3: y = (mR + dm)(1 + (ρa − 1.2)(1/ρW − 1/ρR)) − 100 000, mg and kg/m³. The first-order u is
// 0.0539 because the product of two deviations has no slope; drawn it is 0.0755.
TEST(Clause93, CalibrationOfAMass) {
    const std::vector<DrawShape> inputs{normalDraw(0.050), normalDraw(0.020), rectangularDraw(0.10),
                                        rectangularDraw(1000), rectangularDraw(50)};
    const auto model = [](std::span<const double> e) {
        const double mass = 100000 + e[0] + 1.234 + e[1];
        return mass * (1 + e[2] * (1 / (8000 + e[3]) - 1 / (8000 + e[4]))) - 100000;
    };
    const auto drawn = propagate(inputs, model, {.seed = kSeed, .count = 1000000});
    expectDrawn(drawn, 1.2341, 0.07548, 1.085, 1.384);
    // First order, by differences: u 0.05385165, interval [1.12845, 1.33955].
    double variance = 0;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const double u = standardDeviation(inputs[i]);
        std::array<double, 5> up{}, down{};
        up[i] = 1e-3 * u;
        down[i] = -1e-3 * u;
        variance += std::pow((model(up) - model(down)) / 2e-3, 2);
    }
    const double u = std::sqrt(variance);
    EXPECT_NEAR(u, 0.05385165, 1e-7);
    EXPECT_NEAR(1.234 - 1.959964 * u, 1.12845, 1e-5);
    EXPECT_NEAR(1.234 + 1.959964 * u, 1.33955, 1e-5);
}

// 9.4: comparison loss y = x1² + x2² with u 0.005: first order says 0 at the middle.
TEST(Clause94, ComparisonLoss) {
    struct Row {
        double x1, mean, u, low, high;
    };
    const std::vector<DrawShape> inputs(2, normalDraw(0.005));
    for (const auto& row :
         {Row{0, 50e-6, 50e-6, 0, 149.787e-6}, Row{0.010, 150e-6, 111.80340e-6, 0, 366.005e-6},
          Row{0.050, 2550e-6, 502.49378e-6, 1593.57e-6, 3548.57e-6}}) {
        const auto model = [&](std::span<const double> e) {
            return (row.x1 + e[0]) * (row.x1 + e[0]) + e[1] * e[1];
        };
        expectDrawn(propagate(inputs, model, {.seed = kSeed, .count = 1000000}), row.mean, row.u,
                    row.low, row.high);
    }
}

// 9.5: the end gauge of JCGM 100:2008, H.1, with t, arcsine and inexact rectangular inputs; nm.
TEST(Clause95, EndGauge) {
    const std::vector<DrawShape> inputs{
        studentDraw(25, 18),                // standard
        studentDraw(5.8, 24),               // repeats of the difference
        studentDraw(3.9, 5),                // comparator, random
        studentDraw(6.7, 8),                // comparator, systematic
        rectangularDraw(2e-6),              // its expansion
        curvedTrapezoidDraw(1e-6, 0.1e-6),  // difference of expansions
        normalDraw(0.2),
        arcSineDraw(0.5),                    // temperature: mean and cycle
        curvedTrapezoidDraw(0.050, 0.025)};  // difference of temperatures
    const double standard = 50000623;
    const auto model = [&](std::span<const double> e) {
        const double expansion = 11.5e-6 + e[4];
        const double temperature = -0.1 + e[6] + e[7];
        const double ls = standard + e[0];
        return ls + 215 + e[1] + e[2] + e[3] - ls * (e[5] * temperature + expansion * e[8]) - 5e7;
    };
    const auto drawn =
        propagate(inputs, model, {.seed = kSeed, .count = 1000000, .probability = 0.99});
    expectDrawn(drawn, 838, 35.8, 745, 932);
}

// JCGM 100:2008, H.1.7: the products of two deviations, which have no slope, add 11.8901 and
// 1.7400 nm to the first-order 31.7106: 33.911 nm (printed 34). Drawn from normal inputs with the
// u of Table H.1 they come by themselves.
TEST(EndGaugeDrawn, SecondOrderTermsComeWithTheDraw) {
    const std::vector<DrawShape> inputs{normalDraw(25),      normalDraw(9.7),  normalDraw(1.2e-6),
                                        normalDraw(0.58e-6), normalDraw(0.41), normalDraw(0.029)};
    const auto model = [](std::span<const double> e) {
        const double ls = 50000623 + e[0];
        return ls + 215 + e[1] - ls * (e[3] * (-0.1 + e[4]) + (11.5e-6 + e[2]) * e[5]) - 5e7;
    };
    const auto drawn = propagate(inputs, model, {.seed = kSeed, .count = 1000000});
    EXPECT_RELATIVE(drawn.u, 33.911, 0.005);
    EXPECT_NEAR(drawn.mean, 838, 0.2);
}

// 5.3.4 against 7.7: for one skewed distribution the two intervals differ and both hold 95 %.
TEST(Intervals, ShortestAndSymmetricDifferWhereTheDistributionIsSkewed) {
    const std::vector<DrawShape> one{normalDraw(1)};
    const auto drawn =
        propagate(one, [](auto e) { return e[0] * e[0]; }, {.seed = kSeed, .count = 1000000});
    EXPECT_NEAR(drawn.shortest.low, 0, 1e-6);
    EXPECT_NEAR(drawn.shortest.high, 3.8415, 0.03);  // χ², 1 degree, 0.95
    EXPECT_NEAR(drawn.symmetric.low, 0.000982, 5e-5);
    EXPECT_NEAR(drawn.symmetric.high, 5.0239, 0.05);
}

}  // namespace

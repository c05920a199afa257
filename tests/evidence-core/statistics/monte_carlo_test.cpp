#include "evidence-core/statistics/monte_carlo.h"

#include "evidence-core/statistics/philox.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace {

using namespace evidence::statistics;

// Known answers that the authors of the generator publish with it (Salmon et al. 2011, file
// kat_vectors of their library; from memory): all zeros, all ones, digits of π.
TEST(Philox, GivesItsAuthorsKnownAnswers) {
    EXPECT_EQ(philox({0, 0, 0, 0}, {0, 0}),
              (PhiloxBlock{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}));
    EXPECT_EQ(philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}),
              (PhiloxBlock{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}));
    EXPECT_EQ(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}),
              (PhiloxBlock{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}));
}

TEST(Draws, AreTheSameWhateverTheOrderAndDifferByInputAndSeed) {
    const DrawShape shape = normalDraw(1);
    const auto all = draws(shape, 7, 3, 100);
    for (std::size_t i = all.size(); i-- > 0;) EXPECT_EQ(all[i], drawn(shape, 7, 3, i));
    EXPECT_NE(all[0], drawn(shape, 7, 4, 0));
    EXPECT_NE(all[0], drawn(shape, 8, 3, 0));
}

struct LawCase {
    const char* name;
    DrawShape shape;
    double deviation;  ///< for half-width 1; JCGM 100:2008, 4.3, and JCGM 101:2008, 6.4
    double fourth;     ///< E x⁴ / u⁴, by integration of the density
};

class Laws : public ::testing::TestWithParam<LawCase> {};

TEST_P(Laws, HaveTheirMomentsInFormAndInDraws) {
    const auto& [name, shape, deviation, fourth] = GetParam();
    EXPECT_NEAR(standardDeviation(shape), deviation, 1e-8);
    const auto values = draws(shape, 20260501, 0, 400000);
    double sum = 0, squares = 0, fourths = 0;
    for (const double x : values) {
        sum += x;
        squares += x * x;
        fourths += x * x * x * x;
    }
    const auto n = static_cast<double>(values.size());
    const double variance = deviation * deviation;
    EXPECT_NEAR(sum / n, 0, 5 * deviation / std::sqrt(n));
    EXPECT_NEAR(squares / n / variance, 1, 5 * std::sqrt((fourth - 1) / n));
    EXPECT_NEAR(fourths / n / (variance * variance) / fourth, 1, 0.03);
}

INSTANTIATE_TEST_SUITE_P(
    All, Laws,
    ::testing::Values(
        LawCase{"normal", normalDraw(1), 1, 3},
        LawCase{"rectangular", rectangularDraw(1), 0.577350269, 9.0 / 5},
        LawCase{"triangular", triangularDraw(1), 0.408248290, 12.0 / 5},
        LawCase{"arcsine", arcSineDraw(1), 0.707106781, 3.0 / 2},
        // half-width w ∈ 1 ± d: E x² = (1 + d²/3)/3, E x⁴ = (1 + 2d² + d⁴/5)/5, d = 1/2
        LawCase{"curved_trapezoid", curvedTrapezoidDraw(1, 0.5), std::sqrt(1.0 / 3 + 0.25 / 9),
                (1.5 + 0.0125) / 5 / std::pow(1.0 / 3 + 0.25 / 9, 2)},
        // kurtosis of t: 3 + 6/(ν − 4)
        LawCase{"student", studentDraw(1, 20), std::sqrt(20.0 / 18), 3 + 6.0 / 16}),
    [](const auto& law) { return std::string(law.param.name); });

// P(|T| ≤ 2.7764) = 0.95 at 4 degrees of freedom (NIST TN 1297, Table B.1).
TEST(StudentDraws, HoldNinetyFivePercentInsideTheTabledFactor) {
    const auto values = draws(studentDraw(1, 4), 11, 0, 400000);
    const auto inside =
        std::ranges::count_if(values, [](double x) { return std::abs(x) < 2.7764; });
    EXPECT_NEAR(static_cast<double>(inside) / 400000, 0.95, 0.002);
}

TEST(Intervals, AreCountedAsTheGuideCountsThem) {
    std::vector<double> sorted(100);
    for (std::size_t i = 0; i < 100; ++i) sorted[i] = static_cast<double>(i * i);
    // q = 95, r = (100 − 95)/2 rounded down = 2: the third and the 98th value.
    const auto symmetric = symmetricInterval(sorted, 0.95);
    EXPECT_EQ(symmetric.low, 4);
    EXPECT_EQ(symmetric.high, 97 * 97);
    const auto shortest = shortestInterval(sorted, 0.95);
    EXPECT_EQ(shortest.low, 0);
    EXPECT_EQ(shortest.high, 95 * 95);
}

// A model that fails in some trials (a root of a negative number) is judged by the others; one that
// fails in most says nothing.
TEST(Propagation, LeavesOutWhatIsNotANumber) {
    const std::vector<DrawShape> one{normalDraw(1)};
    const auto mostly =
        propagate(one, [](auto x) { return std::sqrt(x[0] + 2); }, {.seed = 3, .count = 10000});
    EXPECT_TRUE(std::isfinite(mostly.mean));
    const auto rarely =
        propagate(one, [](auto x) { return std::sqrt(x[0] - 2); }, {.seed = 3, .count = 10000});
    EXPECT_TRUE(std::isnan(rarely.mean));
}

}  // namespace

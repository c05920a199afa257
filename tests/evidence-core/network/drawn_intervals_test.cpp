#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

/// Intervals where the equations are curved, against published and exact distributions.
namespace {

using namespace evidence;
using record::Basis;
using record::DimensionQuantity;
using testsupport::NetSketch;

/// D3 = D1^2 + D2^2 with u 0.005 each, as in JCGM 101:2008, 9.4 (comparison loss).
network::DimensionSolution sumOfSquares(double x1) {
    NetSketch b;
    b.dimension(DimensionQuantity::Ratio);
    b.dimension(DimensionQuantity::Ratio);
    b.dimension(DimensionQuantity::Ratio);
    b.reading("d1", x1, 0.005, b.source());
    b.reading("d2", 0, 0.005, b.source());
    b.relation("D3 = D1^2 + D2^2");
    return network::solve(b.reg).value().dimensions[2];
}

/// JCGM 101:2008, 9.4.2 to 9.4.4, exact by the non-central χ² with two degrees of freedom
/// ((x/u)², scale u²; Boost.Math). The standard prints the shortest intervals; ours leave as much
/// out on either side.
TEST(DrawnInterval, OfASumOfSquaresIsThatOfTheNoncentralChiSquared) {
    for (const double x1 : {0.010, 0.050}) {
        const double u = 0.005;
        const boost::math::non_central_chi_squared law(2, x1 * x1 / (u * u));
        const double low = u * u * boost::math::quantile(law, 0.025);
        const double high = u * u * boost::math::quantile(law, 0.975);
        const auto d = sumOfSquares(x1);
        ASSERT_TRUE(d.interval95);
        EXPECT_GT(d.draws, 0) << x1;
        EXPECT_NEAR(d.interval95->low, low, 0.03 * (high - low)) << x1;
        EXPECT_NEAR(d.interval95->high, high, 0.03 * (high - low)) << x1;
    }
}

TEST(DrawnInterval, IsTheSameEveryTime) {
    const auto once = sumOfSquares(0.01), again = sumOfSquares(0.01);
    EXPECT_EQ(once.interval95->low, again.interval95->low);
    EXPECT_EQ(once.interval95->high, again.interval95->high);
}

TEST(DrawnInterval, IsNotDrawnWhereTheEquationsAreStraight) {
    NetSketch b;
    for (int i = 0; i < 3; ++i) b.dimension();
    b.reading("d1", 10, 3, b.source());
    b.reading("d2", 20, 4, b.source());
    b.relation("D3 = D1 + D2");
    const auto s = network::solve(b.reg).value();
    EXPECT_EQ(s.dimensions[2].draws, 0);
    EXPECT_NEAR(s.dimensions[2].interval95->high - 30, 1.959964 * 5, 1e-4);
}

/// A ratio of two lengths with 25 % on the lower one: the quotient leans to one side. Against
/// 400,000 draws of the quotient itself with another generator.
TEST(DrawnInterval, OfAQuotientLeansAsTheQuotientDoes) {
    NetSketch b;
    b.dimension();
    b.dimension();
    b.dimension(DimensionQuantity::Ratio);
    b.reading("d1", 40, 0.5, b.source());
    b.reading("d2", 4, 1, b.source());
    b.relation("D3 = D1/D2");
    const auto d = network::solve(b.reg).value().dimensions[2];
    std::mt19937_64 chance(9);
    std::normal_distribution<double> upper(40, 0.5), lower(4, 1);
    std::vector<double> drawn;
    for (int i = 0; i < 400000; ++i) drawn.push_back(upper(chance) / lower(chance));
    std::sort(drawn.begin(), drawn.end());
    const double low = drawn[10000], high = drawn[390000];
    ASSERT_GT(d.draws, 0);
    EXPECT_NEAR(d.interval95->low, low, 0.03 * (high - low));
    EXPECT_NEAR(d.interval95->high, high, 0.05 * (high - low));
    EXPECT_GT(d.interval95->high - *d.value, 1.5 * (*d.value - d.interval95->low));
}

/// Coverage: intervals of strongly curved sizes hold the truth about as often as they say. Few
/// trials, since each draws thousands of times also under the sanitizers.
TEST(DrawnInterval, HoldsTheTruth) {
    std::mt19937_64 chance(12);
    int held = 0;
    constexpr int kTrials = 100;
    for (int i = 0; i < kTrials; ++i) {
        const double a = std::uniform_real_distribution<double>(20, 60)(chance);
        const double c = std::uniform_real_distribution<double>(6, 12)(chance);
        NetSketch b;
        b.dimension();
        b.dimension();
        b.dimension(DimensionQuantity::Area);
        b.reading("d1", a + std::normal_distribution<double>(0, 0.1 * a)(chance), 0.1 * a,
                  b.source());
        b.reading("d2", c + std::normal_distribution<double>(0, 0.15 * c)(chance), 0.15 * c,
                  b.source());
        b.relation("D3 = D1*D2");
        const auto d = network::solve(b.reg).value().dimensions[2];
        held += d.interval95->low <= a * c && a * c <= d.interval95->high;
    }
    // Binomial, 100 at 0.95: σ 2.2; below 87 once in a thousand.
    EXPECT_GE(held, 87);
    EXPECT_LT(held, kTrials);
}

}  // namespace

#include "evidence-core/statistics/effective_degrees.h"

#include "evidence-core/quantity/interval.h"
#include "tests/checks/near.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

namespace {

using namespace evidence::statistics;
using evidence::quantity::studentT;

constexpr double kKnown = std::numeric_limits<double>::infinity();

double combined(const std::vector<Contribution>& list) {
    double sum = 0;
    for (const auto& c : list) sum += c.u * c.u;
    return std::sqrt(sum);
}

// Source: JCGM 100:2008 (GUM), H.1, end gauge, Table H.1; nm. Inputs as carried by R metRology's
// data set GUM.H.1; printed results from memory.
class EndGauge : public ::testing::Test {
  protected:
    std::vector<Contribution> m_difference{{5.8, 24}, {3.9, 5}, {6.7, 8}};
    double m_length = 50000623;
    [[nodiscard]] std::vector<Contribution> all() const {
        return {{25, 18},
                {combined(m_difference), effectiveDegrees(m_difference)},
                {m_length * 0.1 * 0.58e-6, 50},
                {m_length * 11.5e-6 * 0.029, 2}};
    }
};

TEST_F(EndGauge, ItsContributions) {
    EXPECT_NEAR(combined(m_difference), 9.681942, 1e-5);
    // The printed 25.6 comes from the rounded 9.7 nm; unrounded figures give 25.4.
    EXPECT_NEAR(effectiveDegrees(m_difference), 25.4473, 1e-3);
    EXPECT_NEAR(effectiveDegrees(m_difference) * std::pow(9.7 / combined(m_difference), 4), 25.6376,
                1e-3);
    EXPECT_NEAR(std::hypot(0.2, 0.35), 0.403113, 1e-5);
    const auto parts = all();
    EXPECT_NEAR(parts[2].u, 2.900036, 1e-5);   // θ = −0.1 °C; printed 2.9
    EXPECT_NEAR(parts[3].u, 16.675208, 1e-5);  // printed 16.6
}

TEST_F(EndGauge, ItsDegreesOfFreedomAndInterval) {
    EXPECT_NEAR(effectiveDegrees(all()), 16.7, 0.2);
    EXPECT_NEAR(studentT(0.99, 16), 2.920782, 1e-6);
    EXPECT_NEAR(*expandedUncertainty(all(), 0.99), 93, 1);
}

// The trap that the guide warns of: the rounded 32 nm gives 17 where 16 is right.
TEST_F(EndGauge, RoundedFiguresGiveOneDegreeTooMany) {
    double fourths = 0;
    for (const auto& c : all()) fourths += std::pow(c.u, 4) / c.degrees;
    EXPECT_EQ(std::floor(std::pow(32.0, 4) / fourths), 17);
    EXPECT_EQ(std::floor(effectiveDegrees(all())), 16);
}

// Source: JCGM 100:2008, G.4.1, example (from memory): 0.25, 0.57, 0.82 % with 9, 4 and 14 degrees;
// 18.998742 degrees, which the guide quotes as 19.0.
TEST(GuideExampleG4, TakesNineteenDegrees) {
    const std::vector<Contribution> list{{0.25, 9}, {0.57, 4}, {0.82, 14}};
    EXPECT_NEAR(combined(list), 1.029466, 1e-6);
    EXPECT_NEAR(effectiveDegrees(list), 18.998742, 1e-6);
    EXPECT_NEAR(studentT(0.95, 19), 2.093024, 1e-6);
    EXPECT_NEAR(*expandedUncertainty(list, 0.95), 2.154697, 1e-6);
}

// Source: help page of R metRology (inputs); figures recomputed.
TEST(MetrologyHelpPage, EffectiveDegrees) {
    const std::vector<Contribution> list{{0.1, kKnown}, {0.6, 6}, {0.6, 8}, {0.55, 3}};
    EXPECT_NEAR(combined(list), 1.016120072, 1e-9);
    EXPECT_NEAR(effectiveDegrees(list), 15.607960958, 1e-8);
}

TEST(KnownContributions, HaveNoDegreesAndGiveTheNormalFactor) {
    const std::vector<Contribution> list{{3, kKnown}, {4, kKnown}};
    EXPECT_TRUE(std::isinf(effectiveDegrees(list)));
    EXPECT_NEAR(*expandedUncertainty(list, 0.95), 5 * 1.959963984540054, 1e-12);
    const std::vector<Contribution> half{{1, 0.5}};
    EXPECT_FALSE(expandedUncertainty(half, 0.95));
}

struct Factors {
    double degrees;
    double t6827, t90, t95, t9545, t99, t9973;
};

// Source: NIST Technical Note 1297 (1994), Table B.1, recomputed to four decimals; its last column
// is at 3 σ, here at exactly 0.9973.
TEST(TechnicalNote1297, FactorsOfStudentsT) {
    const std::vector<Factors> table{{1, 1.8374, 6.3138, 12.7062, 13.9678, 63.6567, 235.7837},
                                     {2, 1.3213, 2.9200, 4.3027, 4.5266, 9.9248, 19.2060},
                                     {3, 1.1969, 2.3534, 3.1824, 3.3068, 5.8409, 9.2187},
                                     {4, 1.1417, 2.1318, 2.7764, 2.8693, 4.6041, 6.6201},
                                     {5, 1.1105, 2.0150, 2.5706, 2.6487, 4.0321, 5.5070},
                                     {10, 1.0526, 1.8125, 2.2281, 2.2837, 3.1693, 3.9569},
                                     {16, 1.0323, 1.7459, 2.1199, 2.1689, 2.9208, 3.5441},
                                     {20, 1.0257, 1.7247, 2.0860, 2.1330, 2.8453, 3.4221},
                                     {50, 1.0101, 1.6759, 2.0086, 2.0513, 2.6778, 3.1571},
                                     {100, 1.0050, 1.6602, 1.9840, 2.0253, 2.6259, 3.0767}};
    for (const auto& row : table) {
        EXPECT_NEAR(studentT(0.6827, row.degrees), row.t6827, 1e-4) << row.degrees;
        EXPECT_NEAR(studentT(0.90, row.degrees), row.t90, 1e-4) << row.degrees;
        EXPECT_NEAR(studentT(0.95, row.degrees), row.t95, 1e-4) << row.degrees;
        EXPECT_NEAR(studentT(0.9545, row.degrees), row.t9545, 1e-4) << row.degrees;
        EXPECT_NEAR(studentT(0.99, row.degrees), row.t99, 1e-4) << row.degrees;
        EXPECT_NEAR(studentT(0.9973, row.degrees), row.t9973, 1e-4) << row.degrees;
    }
}

// Source: NIST Technical Note 1900, Example 2: 22 daily maxima (from memory); printed 25.6, 0.872,
// 23.8 to 27.4.
TEST(TechnicalNote1900, MeanOfDailyTemperatures) {
    const std::vector<double> t{18.75, 28.25, 25.75, 28.00, 28.50, 20.75, 21.00, 22.75,
                                18.50, 27.25, 20.75, 26.50, 28.00, 23.25, 28.00, 21.75,
                                26.00, 26.50, 28.00, 33.25, 32.00, 29.50};
    double sum = 0, squares = 0;
    for (const double x : t) sum += x;
    const double mean = sum / 22;
    for (const double x : t) squares += (x - mean) * (x - mean);
    EXPECT_NEAR(mean, 25.590909, 1e-6);
    EXPECT_NEAR(std::sqrt(squares / 21), 4.0923458, 1e-6);
    const std::vector<Contribution> one{{std::sqrt(squares / 21 / 22), 21}};
    EXPECT_NEAR(one[0].u, 0.8724911, 1e-6);
    EXPECT_NEAR(studentT(0.95, 21), 2.0796138, 1e-6);
    EXPECT_NEAR(mean - *expandedUncertainty(one, 0.95), 23.776465, 1e-6);
    EXPECT_NEAR(mean + *expandedUncertainty(one, 0.95), 27.405353, 1e-6);
}

// Constants of tests (Baarda 1968: the far tail is left out) and quantiles of χ²; recomputed.
TEST(TestConstants, DetectableShiftAndChiSquare) {
    using evidence::quantity::chiSquareProbability;
    using evidence::quantity::normalQuantile;
    const auto shift = [](double alpha, double power) {
        return normalQuantile(1 - alpha / 2) + normalQuantile(power);
    };
    EXPECT_NEAR(shift(0.001, 0.80), 4.132148, 1e-6);
    EXPECT_NEAR(shift(0.001, 0.80) * shift(0.001, 0.80), 17.074647, 1e-5);
    EXPECT_NEAR(shift(0.001, 0.90), 4.5721, 1e-4);
    EXPECT_NEAR(shift(0.01, 0.80), 3.4175, 1e-4);
    EXPECT_NEAR(shift(0.05, 0.80), 2.8016, 1e-4);
    EXPECT_NEAR(shift(0.05, 0.90), 3.2415, 1e-4);
    struct Row {
        int degrees;
        double low, high, top;
    };
    for (const auto& [degrees, low, high, top] :
         {Row{3, 0.215795, 9.348404, 7.814728}, Row{4, 0.484419, 11.143287, 9.487729},
          Row{6, 1.237344, 14.449375, 12.591587}, Row{8, 2.179731, 17.534546, 15.507313},
          Row{15, 6.262138, 27.488393, 24.995790}}) {
        EXPECT_NEAR(chiSquareProbability(low, degrees), 0.975, 1e-6);
        EXPECT_NEAR(chiSquareProbability(high, degrees), 0.025, 1e-6);
        EXPECT_NEAR(chiSquareProbability(top, degrees), 0.05, 1e-6);
    }
}

}  // namespace

#include "evidence-core/judgement/mistake.h"

#include <gtest/gtest.h>

namespace evidence::judgement {
namespace {

// The signs are those of docs/method/likely-mistake.md.

Disagreement lengths(double observed, double uObserved, double predicted, double uPredicted) {
    Disagreement d;
    d.observed = observed;
    d.uObserved = uObserved;
    d.predicted = predicted;
    d.uPredicted = uPredicted;
    d.bareUnit = quantity::Unit::Inch;
    return d;
}

struct Case {
    const char* name;
    double observed;
    double predicted;
    const char* written;
    const char* sign;
};

class SignOfAMistake : public testing::TestWithParam<Case> {};

TEST_P(SignOfAMistake, IsNamed) {
    const auto& c = GetParam();
    auto d = lengths(c.observed, 0.02, c.predicted, 0.02);
    if (c.written) d.written = c.written;
    const auto mistake = likelyMistake(d);
    ASSERT_TRUE(mistake);
    EXPECT_EQ(mistake->sign, c.sign);
    EXPECT_GT(mistake->odds, 20.0 * mistake->signsTried);
    EXPECT_NEAR(mistake->corrected, c.predicted, 0.2);
}

INSTANTIATE_TEST_SUITE_P(
    Table, SignOfAMistake,
    testing::Values(Case{"OneInch", 38.5, 39.5, nullptr, "one-inch"},
                    Case{"OneFoot", 51.5, 39.5, nullptr, "one-foot"},
                    Case{"Millimetres", 1003.3, 39.5, nullptr, "metric"},
                    Case{"MetresForFeet", 12.04, 39.5, nullptr, "metric"},
                    Case{"FootForInch", 474.0, 39.5, nullptr, "foot-for-inch"},
                    Case{"RadiusForDiameter", 19.77, 39.54, nullptr, "twice"},
                    Case{"DecimalPoint", 395.3, 39.53, nullptr, "decimal-point"},
                    Case{"FrenchInch", 42.10, 39.50, nullptr, "local-inch"},
                    Case{"FortyEighthForFiftieth", 41.146, 39.5, nullptr, "drawn-scale"},
                    Case{"InchToTheFootForTenth", 47.436, 39.53, nullptr, "foot-scale"},
                    Case{"DigitsSwapped", 74.5, 47.5, "74 1/2", "swapped-digits"},
                    Case{"NineForSix", 69.25, 66.25, "69 1/4", "misread-figure"},
                    Case{"FiveSixteenthsForThree", 40.3125, 40.1875, "40 5/16", "misread-figure"},
                    Case{"ThreeEighthsForFive", 27.375, 27.625, "27 3/8", "misread-figure"},
                    // 6-0-4 in feet, inches and eighths is 72 1/2 in.
                    Case{"EighthsAsDecimals", 76.0, 72.5, "6'-4\"", "eighths"},
                    Case{"EighthsAsInches", 76.3, 76.375, "6'-4.3\"", "eighths"}),
    [](const auto& row) { return std::string(row.param.name); });

TEST(LikelyMistake, NamesNothingForAMisfitOfNoSign) {
    EXPECT_FALSE(likelyMistake(lengths(39.5, 0.02, 36.83, 0.02)));
}

TEST(LikelyMistake, NamesNothingWhereTheDoubtIsAsWideAsTheSign) {
    EXPECT_FALSE(likelyMistake(lengths(38.5, 0.8, 39.5, 0.8)));
}

TEST(LikelyMistake, CountsAThicknessNearbyAsASign) {
    auto d = lengths(40.375, 0.02, 39.5, 0.02);
    EXPECT_FALSE(likelyMistake(d));
    d.thicknesses = {{"Side boarding thickness", 0.4375}};
    const auto mistake = likelyMistake(d);
    ASSERT_TRUE(mistake);
    EXPECT_EQ(mistake->sign, "inside-outside");
}

TEST(LikelyMistake, CountsHalfAMemberAsEdgeForCentre) {
    auto d = lengths(41.6875, 0.02, 39.5, 0.02);
    EXPECT_FALSE(likelyMistake(d));
    d.widths = {{"Corner post width", 4.375}};
    const auto mistake = likelyMistake(d);
    ASSERT_TRUE(mistake);
    EXPECT_EQ(mistake->sign, "edge-or-centre");
    EXPECT_NEAR(mistake->corrected, 39.5, 1e-9);
}

TEST(LikelyMistake, DoesNotTryTapeSlipsOnMasses) {
    auto d = lengths(51.5, 0.02, 39.5, 0.02);
    d.measure = quantity::Measure::Mass;
    d.bareUnit = quantity::Unit::Pound;
    EXPECT_FALSE(likelyMistake(d));
}

// The density of the sign at its middle, 1/(√(2π)·u), against 1/(2·39.5): worked by hand.
TEST(LikelyMistake, GivesTheLikelihoodRatioOfItsDefinition) {
    const auto mistake = likelyMistake(lengths(38.5, 0.03, 39.5, 0.04));
    ASSERT_TRUE(mistake);
    EXPECT_NEAR(mistake->odds, 2 * 39.5 / (2.506628274631 * 0.05), 1e-6);
}

}  // namespace
}  // namespace evidence::judgement

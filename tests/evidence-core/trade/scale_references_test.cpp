// Scale references against published sizes.
#include "evidence-core/quantity/inch.h"
#include "tests/evidence-core/trade/known_row.h"

#include <cmath>
#include <map>

namespace {

using namespace trading;
using quantity::Inch;

// Gauges by their legal definitions: 4 ft 8 1/2 in (Gauge Act 1846), 5 ft 3 in for Ireland (same
// act), 7 ft 0 1/4 in for the Great Western (same act); 1520 mm and 1000 mm by name.
TEST(ScaleReferences, RailGauges) {
    EXPECT_EQ(valueOf("rg-standard"), 4 * 12 + 8.5);
    EXPECT_EQ(valueOf("rg-irish"), 5 * 12 + 3);
    EXPECT_EQ(valueOf("rg-brunel"), 7 * 12 + 0.25);
    EXPECT_NEAR(valueOf("rg-1520"), Inch::fromMillimetres(1520).toInches(), 5e-6);
    EXPECT_NEAR(valueOf("rg-metre"), Inch::fromMillimetres(1000).toInches(), 5e-6);
    // Worn rails spread: never the other way as far.
    EXPECT_GT(*row("rg-standard").high - row("rg-standard").value,
              row("rg-standard").value - *row("rg-standard").low);
}

// ISO 216: A0 is 841 x 1189 mm, and each size is half of the one before, rounded down to a mm.
TEST(ScaleReferences, SheetsOfTheIsoSeries) {
    double shortEdge = 841;
    double longEdge = 1189;
    for (const std::string size : {"a0", "a1", "a2", "a3", "a4"}) {
        EXPECT_NEAR(valueOf("pp-" + size + "-s"), Inch::fromMillimetres(shortEdge).toInches(),
                    5e-6);
        EXPECT_NEAR(valueOf("pp-" + size + "-l"), Inch::fromMillimetres(longEdge).toInches(), 5e-6);
        const double half = std::floor(longEdge / 2);
        longEdge = shortEdge;
        shortEdge = half;
    }
}

// United States Mint, coin specifications: cent 19.05, nickel 21.21, dime 17.91, quarter 24.26,
// half dollar 30.61, dollar 38.1 mm.
TEST(ScaleReferences, CoinsOfTheUnitedStates) {
    const std::map<std::string, double> millimetres{{"co-us-cent", 19.05}, {"co-us-nickel", 21.21},
                                                    {"co-us-dime", 17.91}, {"co-us-quarter", 24.26},
                                                    {"co-us-half", 30.61}, {"co-us-dollar", 38.1}};
    for (const auto& [id, d] : millimetres)
        EXPECT_NEAR(Inch::fromInches(valueOf(id)).toMillimetres(), d, 0.006) << id;
}

// American Softwood Lumber Standard PS 20: a dry 2 x 4 is 1 1/2 x 3 1/2 in; from 1924 to 1964 it
// was 1 5/8 x 3 5/8 in (Forest Products Laboratory, History of Yard Lumber Size Standards, 1964).
TEST(ScaleReferences, Lumber) {
    EXPECT_EQ(valueOf("lb-2-1970"), 1.5);
    EXPECT_EQ(valueOf("lb-4-1970"), 3.5);
    EXPECT_EQ(valueOf("lb-2-1924"), 1.625);
    EXPECT_EQ(valueOf("lb-4-1924"), 3.625);
}

// Typewriters: pica ten and elite twelve characters to the inch, six lines (practice, from memory).
TEST(ScaleReferences, TypewriterPitches) {
    EXPECT_NEAR(valueOf("pp-typepica"), 1.0 / 10, 1e-5);
    EXPECT_NEAR(valueOf("pp-typeelite"), 1.0 / 12, 1e-5);
    EXPECT_NEAR(valueOf("pp-typeline"), 1.0 / 6, 1e-5);
}

// Worn thin, not out of size: each row's u is of the size that its family is known for.
TEST(ScaleReferences, SpreadsAreOfTheOrderOfTheirFamily) {
    const auto relative = [](const std::string& id) { return row(id).u / row(id).value; };
    EXPECT_NEAR(relative("rg-standard"), 0.007, 0.001);
    EXPECT_NEAR(relative("hu-us1918"), 0.04, 0.005);
    EXPECT_LT(relative("pp-typepica"), 0.006);
    EXPECT_GT(relative("ct-churn17-h"), 0.05);
}

}  // namespace

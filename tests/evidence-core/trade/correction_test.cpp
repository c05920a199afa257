#include "evidence-core/trade/correction.h"

#include "tests/evidence-core/trade/known_row.h"

#include <cmath>

namespace {

using namespace trading;
using trade::Circumstances;
using trade::correctionBy;
using trade::InHand;
using trade::Known;
using trade::WorkedCorrection;

WorkedCorrection worked(const trade::Row& by, const Circumstances& given) {
    const auto correction = correctionBy(by, given);
    EXPECT_TRUE(correction) << (correction ? "" : correction.error().help);
    return correction ? *correction : WorkedCorrection{};
}

Circumstances moistures(double now, double then) {
    Circumstances given;
    given.moistureNow = Known{now, 1};
    given.moistureThen = Known{then, 1};
    return given;
}

// Wood Handbook, the example beside the equation of dimensional change (from memory): a white fir
// board 9.15 in wide, C_T = 0.00245, going from 8 to 11 per cent, grows by 0.067 in.
TEST(WoodMovement, IsTheHandbooksExample) {
    trade::Row fir = row("wm-ash-white-t");
    fir.value = 0.00245;
    EXPECT_NEAR(9.15 * (*worked(fir, moistures(8, 11)).factor - 1), 0.067, 0.0005);
}

// A flat-sawn ash rail 3 in wide, made at 12 per cent and kept at 7, is 3 x 0.00274 x 5 = 0.041 in
// narrower than new (worked by hand from Table 13-5).
TEST(WoodMovement, OfAnAshRail) {
    const auto correction = worked(row("wm-ash-white-t"), moistures(7, 12));
    EXPECT_NEAR(3 * (*correction.factor - 1), 0.041, 0.0002);
    // By hand: 5 x 15 % of C, and 1 per cent of moisture at either end.
    const double c = 0.00274;
    EXPECT_NEAR(correction.u, std::sqrt(std::pow(5 * 0.15 * c, 2) + 2 * c * c), 1e-5);
    EXPECT_NE(correction.reason.find("wm-ash-white-t"), std::string::npos);
    EXPECT_NE(correction.reason.find("Wood Handbook"), std::string::npos);
}

TEST(WoodMovement, OutsideSixToFourteenPerCentIsRefused) {
    const auto correction = correctionBy(row("wm-ash-white-t"), moistures(7, 20));
    ASSERT_FALSE(correction);
    EXPECT_EQ(correction.error().code, Code::BadValue);
    EXPECT_EQ(correction.error().place, "moisture_then");
}

// Wood Handbook: ΔD = D_I (M_F − M_I) / (28·100/S − 28 + M_I), S in per cent of the green size.
TEST(WoodShrinkage, IsTheHandbooksEquation) {
    const double s = 10.5;  // white oak, tangential
    const double now = 8;
    const double then = 20;
    const double growth = (then - now) / (28 * 100 / s - 28 + now);
    const auto correction = worked(row("ws-oak-white-t"), moistures(now, then));
    EXPECT_NEAR(*correction.factor, 1 + growth, 1e-12);
}

TEST(WoodShrinkage, AboveFibreSaturationNothingMoves) {
    EXPECT_DOUBLE_EQ(*worked(row("ws-oak-white-t"), moistures(40, 60)).factor, 1);
    EXPECT_DOUBLE_EQ(*worked(row("ws-oak-white-t"), moistures(0, 60)).factor, 1 / (1 - 0.105));
}

// u by the same formula with each input moved by its u, one at a time (JCGM 100:2008, 5.1.3, note
// 2).
TEST(WoodShrinkage, UncertaintyIsThatOfMovedInputs) {
    const auto given = moistures(8, 20);
    const auto base = worked(row("ws-oak-white-t"), given);
    const auto moved = [&](double shrinkage, double now, double then) {
        trade::Row by = row("ws-oak-white-t");
        by.value += shrinkage;
        return *worked(by, moistures(8 + now, 20 + then)).factor - *base.factor;
    };
    const double h = 1e-5;
    const double u = std::hypot(moved(h, 0, 0) / h * row("ws-oak-white-t").u, moved(0, h, 0) / h,
                                moved(0, 0, h) / h);
    EXPECT_NEAR(base.u, u, 1e-6);
}

// Pattern-maker's rule, 1/8 in to the foot: 12 1/8 in of pattern make 12 in of iron (practice).
TEST(CastingContraction, PatternIsLongerThanThePart) {
    Circumstances given;
    given.inHand = InHand::Pattern;
    EXPECT_NEAR(12.125 * *worked(row("cc-grey-iron"), given).factor, 12, 1e-12);
    given.inHand = InHand::CopyCasting;
    EXPECT_NEAR(12 * *worked(row("cc-grey-iron"), given).factor, 12.125, 1e-12);
}

TEST(CastingContraction, AsksWhatWasMeasured) {
    const auto correction = correctionBy(row("cc-grey-iron"), {});
    ASSERT_FALSE(correction);
    EXPECT_EQ(correction.error().code, Code::MissingKey);
    EXPECT_EQ(correction.error().place, "in_hand");
}

TEST(SheetChange, IsNoChangeWithItsSpread) {
    const auto correction = worked(row("sc-blueprint-across"), {});
    EXPECT_EQ(*correction.factor, 1);
    EXPECT_NEAR(correction.u, 0.008, 1e-12);
}

// 37 micrometres in the first year (middle of class C3), 80 years, exponent 0.52: 37 x 9.8 = 0.36
// mm = 0.014 in from each open face (worked by hand; class and exponent ISO 9223 and 9224, from
// memory).
TEST(SurfaceLoss, GrowsLessThanWithTime) {
    Circumstances given;
    given.years = Known{80, 0};
    given.faces = 1;
    const auto one = worked(row("sl-steel-c3"), given);
    EXPECT_NEAR(one.add->toInches(), 0.0144, 0.0002);
    given.faces = 2;
    const auto two = worked(row("sl-steel-c3"), given);
    EXPECT_DOUBLE_EQ(two.add->toInches(), 2 * one.add->toInches());
    EXPECT_DOUBLE_EQ(two.u, 2 * one.u);  // both faces stood in the same weather
}

TEST(Coating, IsTakenAway) {
    Circumstances given;
    given.faces = 2;
    EXPECT_NEAR(worked(row("pa-paint"), given).add->toInches(), -0.010, 1e-12);
    given.faces = 3;
    EXPECT_EQ(correctionBy(row("pa-paint"), given).error().place, "faces");
}

// Steel 6.5 millionths for a degree Fahrenheit: 100 in over 30 degrees 0.020 in (by hand).
TEST(Expansion, OfSteel) {
    Circumstances given;
    given.degreesNow = Known{38, 1};
    given.degreesThen = Known{68, 0};
    EXPECT_NEAR(100 * (*worked(row("ex-steel"), given).factor - 1), 0.0195, 0.0001);
}

TEST(Correction, ASizeCorrectsNothing) {
    const auto correction = correctionBy(row("rg-standard"), {});
    ASSERT_FALSE(correction);
    EXPECT_EQ(correction.error().code, Code::WrongUse);
    EXPECT_EQ(correction.error().place, "table_row");
}

}  // namespace

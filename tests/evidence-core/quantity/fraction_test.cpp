#include "evidence-core/quantity/fraction.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace evidence::quantity {
namespace {

Inch in(double inches) {
    return Inch::fromInches(inches);
}

TEST(Fraction, WritesTheEmptyFootAndInch) {
    EXPECT_EQ(feetInches(in(7.3125), 16), "0'-7 5/16\"");
    EXPECT_EQ(feetInches(in(36.0), 16), "3'-0\"");
    EXPECT_EQ(feetInches(in(36.5), 16), "3'-0 1/2\"");
    EXPECT_EQ(feetInches(in(43.3125), 16), "3'-7 5/16\"");
    EXPECT_EQ(feetInches(in(0.0), 16), "0'-0\"");
}

// Robustness case 58.
TEST(Fraction, CarriesIntoInchesAndFeet) {
    EXPECT_EQ(inchFraction(in(7.9375), 16), "7 15/16\"");
    EXPECT_EQ(feetInches(in(23.9375), 8), "2'-0\"");
    EXPECT_EQ(feetInches(in(11.9999), 64), "1'-0\"");
}

TEST(Fraction, RoundsHalfSixteenthToEven) {
    EXPECT_EQ(inchFraction(in(1.0 / 32), 16), "0\"");
    EXPECT_EQ(inchFraction(in(3.0 / 32), 16), "1/8\"");
    EXPECT_EQ(inchFraction(in(5.0 / 32), 16), "1/8\"");
    EXPECT_EQ(inchFraction(in(-3.0 / 32), 16), "-1/8\"");
}

TEST(Fraction, ReducesToLowestTerms) {
    EXPECT_EQ(inchFraction(in(0.5), 128), "1/2\"");
    EXPECT_EQ(inchFraction(in(2.75), 16), "2 3/4\"");
}

TEST(Fraction, ShowsTheSignOnceAndNeverMinusZero) {
    EXPECT_EQ(feetInches(in(-63.5), 16), "-5'-3 1/2\"");
    EXPECT_EQ(feetInches(in(-3.0), 16), "-0'-3\"");
    EXPECT_EQ(feetInches(in(-0.001), 16), "0'-0\"");
    EXPECT_EQ(inchFraction(in(-0.0), 16), "0\"");
}

TEST(Fraction, SetsRealFractionsInType) {
    EXPECT_EQ(feetInches(in(63.5), 16, Typesetting::Typographic), "5′-3½″");
    EXPECT_EQ(feetInches(in(63.4375), 16, Typesetting::Typographic), "5′-3 7⁄16″");
    EXPECT_EQ(inchFraction(in(-0.875), 8, Typesetting::Typographic), "−⅞″");
}

TEST(Fraction, TellsHowFarItWasRounded) {
    EXPECT_EQ(roundingNote(toShopFraction(in(7.3125), 16)), "exact");
    EXPECT_EQ(roundingNote(toShopFraction(in(7.3013), 16)), "rounded by +0.011 in");
    EXPECT_EQ(roundingNote(toShopFraction(in(7.32), 16)), "rounded by -0.0075 in");
}

RC_GTEST_PROP(FractionProperty, StaysWithinHalfAStep, ()) {
    const int smallest = *rc::gen::inRange(1, 129);
    const double inches = *rc::gen::inRange<int>(-1'000'000'000, 1'000'000'000) / 7000.0;
    const ShopFraction rounded = toShopFraction(in(inches), smallest);
    RC_ASSERT(std::abs(rounded.rounding.toInches()) <= 0.5 / smallest + 1e-9);
    RC_ASSERT(rounded.rounding == rounded.written() - in(inches));
}

}  // namespace
}  // namespace evidence::quantity

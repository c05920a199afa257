#include "evidence-core/quantity/significant.h"

#include <gtest/gtest.h>

#include <cmath>

namespace evidence::quantity {
namespace {

TEST(Significant, TwelveDigitsHideTheLastBits) {
    EXPECT_EQ(toTwelveDigits(0.1 + 0.2), 0.3);
    EXPECT_EQ(toTwelveDigits(1.0 / 3.0), 0.333333333333);
    EXPECT_EQ(toTwelveDigits(123456789012345.0), 123456789012000.0);
    EXPECT_EQ(toTwelveDigits(-2.5e-300), -2.5e-300);
    EXPECT_FALSE(std::signbit(toTwelveDigits(-0.0)));
}

TEST(Significant, WritesPlainDecimals) {
    EXPECT_EQ(significantText(1234.5, 2), "1200");
    EXPECT_EQ(significantText(0.0995, 2), "0.10");
    EXPECT_EQ(significantText(0.0443, 2), "0.044");
    EXPECT_EQ(significantText(9.96, 2), "10");
    EXPECT_EQ(significantText(-0.5, 2), "-0.50");
    EXPECT_EQ(significantText(0.0, 2), "0");
}

TEST(Significant, DecimalsFollowTheRoundedSpread) {
    EXPECT_EQ(decimalsFor(0.0996, 2), 2);
    EXPECT_EQ(decimalsFor(0.0443, 2), 3);
    EXPECT_EQ(decimalsFor(23.0, 2), 0);
    EXPECT_EQ(decimalsFor(450.0, 2), -1);
    EXPECT_EQ(decimalText(1234.0, -1), "1230");
    EXPECT_EQ(decimalText(3.0, -2), "0");
    EXPECT_EQ(decimalText(60.0, -2), "100");
    EXPECT_EQ(decimalText(-0.004, 2), "0.00");
}

}  // namespace
}  // namespace evidence::quantity

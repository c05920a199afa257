#include "evidence-core/quantity/fraction.h"
#include "evidence-core/quantity/inch.h"

#include <gtest/gtest.h>

// Millimetres to shop fractions: worked by hand from 1 in = 25.4 mm exactly. Ties, carries and
// signs: tests/evidence-core/quantity/fraction_test.cpp.

namespace {

using namespace evidence::quantity;

struct Row {
    double millimetres;
    double inches;
    int smallest;
    std::int64_t steps;
    double errorMillimetres;
    const char* text;
};

class Rounded : public ::testing::TestWithParam<Row> {};

TEST_P(Rounded, ToTheNearestStepWithItsError) {
    const Row& is = GetParam();
    const Inch length = Inch::fromMillimetres(is.millimetres);
    EXPECT_NEAR(length.toInches(), is.inches, 5e-9);
    const auto fraction = toShopFraction(length, is.smallest);
    EXPECT_EQ(fraction.steps, is.steps);
    EXPECT_NEAR(fraction.rounding.toMillimetres(), is.errorMillimetres, 1e-9);
    EXPECT_EQ(feetInches(length, is.smallest), is.text);
}

INSTANTIATE_TEST_SUITE_P(
    Table, Rounded,
    ::testing::Values(Row{100, 3.93700787, 16, 63, 0.0125, "0'-3 15/16\""},
                      Row{100, 3.93700787, 32, 126, 0.0125, "0'-3 15/16\""},
                      Row{100, 3.93700787, 64, 252, 0.0125, "0'-3 15/16\""},
                      Row{1234.5, 48.60236220, 16, 778, 0.5750, "4'-0 5/8\""},
                      Row{1234.5, 48.60236220, 32, 1555, -0.21875, "4'-0 19/32\""},
                      Row{1234.5, 48.60236220, 64, 3111, 0.178125, "4'-0 39/64\""},
                      Row{304.8, 12, 16, 192, 0, "1'-0\""},
                      Row{3048.1, 120.00393701, 16, 1920, -0.1, "10'-0\""}));

}  // namespace

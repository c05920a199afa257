#include "imaging/frame/scale.h"

#include "imaging/frame/spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace imaging::frame {
namespace {

TEST(Scale, OneReferenceGivesItsOwnRatio) {
    // By hand, JCGM 100:2008, 5.1.2 (docs/method/scales.md): d = 1500 px, L = 60 in.
    const ScaleReference references[] = {{1500, 0.70710678, 60, 0.05}};
    const auto scale = solveScale(references);
    ASSERT_TRUE(scale);
    EXPECT_DOUBLE_EQ(scale->inchesPerPixel, 0.04);
    const double u = std::hypot(scale->byInches[0] * 0.05, scale->byPixels[0] * 0.70710678);
    EXPECT_NEAR(u / 0.04, 9.574e-4, 5e-8);
    EXPECT_EQ(scale->redundancy, 0);
    EXPECT_FALSE(scale->residuals[0].w);
}

TEST(Scale, TwoReferencesAreWeightedByTheirVariances) {
    const ScaleReference references[] = {{1000, 0, 10.0, 0.01}, {1000, 0, 10.3, 0.02}};
    const auto scale = solveScale(references);
    ASSERT_TRUE(scale);
    // Weights 4 : 1.
    EXPECT_NEAR(scale->inchesPerPixel, (4 * 10.0 + 10.3) / 5 / 1000, 1e-12);
    // chi2 = 0.3² / (0.01² + 0.02²).
    EXPECT_NEAR(scale->chi2, 180, 1e-6);
    EXPECT_NEAR(scale->residuals[0].redundancy, 0.2, 1e-9);
    EXPECT_NEAR(scale->residuals[1].redundancy, 0.8, 1e-9);
    // Of two observations of one unknown both have the same |w| = √chi2.
    EXPECT_NEAR(*scale->residuals[0].w, -std::sqrt(180), 1e-6);
    EXPECT_NEAR(*scale->residuals[1].w, std::sqrt(180), 1e-6);
}

TEST(Scale, AReferenceForCheckingHasNoSay) {
    const ScaleReference references[] = {{1000, 0, 10.0, 0.01}, {1000, 0, 10.3, 0.02, true}};
    const auto scale = solveScale(references);
    ASSERT_TRUE(scale);
    EXPECT_DOUBLE_EQ(scale->inchesPerPixel, 0.01);
    EXPECT_NEAR(scale->residuals[1].residual, 0.3, 1e-12);
    EXPECT_NEAR(*scale->residuals[1].w, 0.3 / std::hypot(0.01, 0.02), 1e-6);
}

TEST(Scale, NothingToAdjustIsRefused) {
    EXPECT_EQ(solveScale({}).error().code, Code::NoSolution);
    const ScaleReference checking[] = {{1000, 0, 10.0, 0.01, true}};
    EXPECT_EQ(solveScale(checking).error().code, Code::NoSolution);
}

TEST(Spread, EndsOfTheRangeAreTheKnownFactors) {
    EXPECT_NEAR(halfWidth95(1, 0), 1.959964, 5e-7);
    EXPECT_DOUBLE_EQ(halfWidth95(0, 1), 0.95);
    EXPECT_EQ(halfWidth95(0, 0), 0);
}

TEST(Spread, ConvolutionHoldsNinetyFivePercentOfDraws) {
    std::mt19937 random(95);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> even(-1, 1);
    for (const double sigma : {0.1, 0.5, 2.0, 20.0}) {
        const double half = halfWidth95(sigma, 1);
        const int count = 200000;
        int inside = 0;
        for (int i = 0; i < count; ++i) {
            inside += std::abs(sigma * normal(random) + even(random)) <= half ? 1 : 0;
        }
        // Four standard deviations of the share of 200 000 draws.
        EXPECT_NEAR(static_cast<double>(inside) / count, 0.95, 0.002) << sigma;
    }
}

TEST(Spread, IsContinuousWhereTheFormulaChanges) {
    EXPECT_NEAR(halfWidth95(1, 0.0099999), halfWidth95(1, 0.0100001), 1e-7);
    EXPECT_NEAR(halfWidth95(0.99e-6, 1), halfWidth95(1.01e-6, 1), 1e-6);
}

}  // namespace
}  // namespace imaging::frame

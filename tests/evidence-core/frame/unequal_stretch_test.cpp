#include "evidence-core/frame/unequal_stretch.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace {

using namespace evidence::frame;

/// A length that lies so on a sheet with these scales (in/px).
KnownVector lying(double dx, double dy, double sx, double sy, double u) {
    return {dx, dy, std::hypot(sx * dx, sy * dy), u};
}

TEST(StretchRatio, IsFoundFromLengthsInAnyDirections) {
    const std::vector<KnownVector> known{lying(900, 0, 0.1, 0.099, 0.01),
                                         lying(300, 400, 0.1, 0.099, 0.02),
                                         lying(-100, 700, 0.1, 0.099, 0.01)};
    const auto is = stretchRatio(known);
    ASSERT_TRUE(is);
    EXPECT_NEAR(is->ratio, 0.1 / 0.099, 1e-12);
}

// Two lengths along the axes: sx = L/dx and sy = L/dy, so u(r)/r = √((u/L)² + (u/L)²). By hand.
TEST(StretchRatio, HasTheDoubtOfBothLengths) {
    const std::vector<KnownVector> known{{500, 0, 50, 0.05}, {0, 250, 25, 0.05}};
    const auto is = stretchRatio(known);
    ASSERT_TRUE(is);
    EXPECT_NEAR(is->ratio, 1, 1e-12);
    EXPECT_NEAR(is->u, std::hypot(0.05 / 50, 0.05 / 25), 1e-12);
}

TEST(StretchRatio, IsAbsentWhereAllLieInOneDirection) {
    EXPECT_FALSE(stretchRatio({}));
    const std::vector<KnownVector> known{{300, 400, 50, 0.05}, {-600, 800, 100, 0.05}};
    EXPECT_FALSE(stretchRatio(known));
}

// Three lengths up a sheet that lean a pixel: their lean says nothing of the scale across.
TEST(StretchRatio, IsAbsentWhereNothingLiesAcross) {
    const std::vector<KnownVector> known{
        {0.1, 500, 50, 0.05}, {1.2, 400, 40, 0.05}, {-0.7, 800, 80.1, 0.05}};
    EXPECT_FALSE(stretchRatio(known));
}

}  // namespace

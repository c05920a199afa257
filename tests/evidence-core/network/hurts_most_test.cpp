#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using namespace evidence;
using testsupport::NetSketch;

/// Three stated parts of a critical total: by hand, the total is their sum; each part is checked by
/// nothing, so its unseen error is taken as δ₀ u = 4.132148 u and goes whole into the total.
TEST(HurtsMost, NamesTheReadingThatNothingChecksAndThatWeighsMost) {
    NetSketch b;
    for (int i = 0; i < 4; ++i) b.dimension();
    b.reading("d1", 10, 0.02, b.source());
    b.reading("d2", 20, 0.05, b.source());
    b.reading("d3", 30, 0.01, b.source());
    b.relation("D4 = D1 + D2 + D3");
    b.reg.dimensions[3].critical = true;
    const auto s = network::solve(b.reg).value();
    ASSERT_EQ(s.hurtsMost.size(), 3U);
    const auto& worst = s.hurtsMost[0];
    EXPECT_EQ(s.readings[worst.reading].id.text, "r2");
    EXPECT_FALSE(worst.checked);
    EXPECT_EQ(worst.dimension, 3U);
    EXPECT_NEAR(worst.unseen, 4.132148 * 0.05, 1e-9);
    EXPECT_NEAR(worst.moves, 4.132148 * 0.05, 1e-9);
    EXPECT_NEAR(worst.harm, worst.moves * worst.moves * 32 * 32, 1e-9);
}

/// Two readings of one critical size, u 1 and u 2: r = 0.2 and 0.8, mde = δ₀ u/√r, pull 0.8 and
/// 0.2.
TEST(HurtsMost, WeighsWhatIsCheckedByItsSmallestMistakeThatShows) {
    NetSketch b;
    b.dimension();
    b.reading("d1", 100, 1, b.source());
    b.reading("d1", 101, 2, b.source());
    b.reg.dimensions[0].critical = true;
    const auto s = network::solve(b.reg).value();
    ASSERT_EQ(s.hurtsMost.size(), 2U);
    EXPECT_EQ(s.readings[s.hurtsMost[0].reading].id.text, "r1");
    EXPECT_TRUE(s.hurtsMost[0].checked);
    EXPECT_NEAR(s.hurtsMost[0].unseen, 4.132148 * std::sqrt(5.0), 1e-9);
    EXPECT_NEAR(s.hurtsMost[0].moves, 0.8 * 4.132148 * std::sqrt(5.0), 1e-9);
    EXPECT_NEAR(s.hurtsMost[1].moves, 0.2 * 4.132148 * std::sqrt(5.0), 1e-9);
}

TEST(HurtsMost, IsEmptyWhereNothingIsWanted) {
    NetSketch b;
    b.dimension();
    b.reading("d1", 100, 1, b.source());
    EXPECT_TRUE(network::solve(b.reg).value().hurtsMost.empty());
}

}  // namespace

#include "tests/support/broadside_trial.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>

#include <cmath>

namespace {

// The coverage over many seeds is printed by broadside_coverage; this keeps one of them.
constexpr std::uint64_t kKeptSeed = 3;

TEST(BroadsideAlone, GivesTwentySizesWhoseIntervalsHoldTheTruth) {
    const test::ScratchFolder folder;
    const auto results = test::measureBroadside(kKeptSeed, folder.path());
    ASSERT_GE(results.size(), 20U);
    std::size_t held = 0;
    for (const test::BroadsideResult& result : results) {
        if (result.holds()) ++held;
        EXPECT_LE(result.width(), result.allowedWidth()) << result.dimension;
        // Far outside means a fit on a wrong edge, not an unlucky scale.
        EXPECT_LT(std::abs(result.value - result.truth), 5 * result.u) << result.dimension;
    }
    EXPECT_GE(static_cast<double>(held), 0.9 * static_cast<double>(results.size()));
}

}  // namespace

#include "tests/support/frame_trial.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

namespace {

class Frame : public testing::TestWithParam<std::string> {};

/// 95 % intervals of every length hold the truth in 95 % of seeded trials, within what chance
/// allows so few of them (four standard deviations); `frame_coverage` runs the long table.
TEST_P(Frame, IntervalsHoldTheTruthAsOftenAsTheySay) {
    constexpr int kTrials = 250;
    std::map<std::string, int> held;
    double chi2 = 0;
    int redundancy = 0;
    for (unsigned i = 0; i < kTrials; ++i) {
        const test::FrameTrial trial = test::frameTrial(GetParam(), 1000 + i);
        ASSERT_EQ(trial.refused, "") << "trial " << i;
        chi2 += trial.chi2 / kTrials;
        redundancy = trial.redundancy;
        for (const auto& result : trial.results) {
            held[result.what] += result.holds() ? 1 : 0;
        }
    }
    const double slack = 4 * std::sqrt(0.95 * 0.05 / kTrials);
    for (const auto& [what, count] : held) {
        EXPECT_NEAR(static_cast<double>(count) / kTrials, 0.95, slack) << what;
    }
    // Mean of chi2 is its redundancy, standard deviation √(2·redundancy/trials).
    EXPECT_NEAR(chi2, redundancy, 4 * std::sqrt(2.0 * redundancy / kTrials) + 1e-6);
}

std::string nameOf(const testing::TestParamInfo<std::string>& row) {
    std::string name;
    bool upper = true;
    for (const char c : row.param) {
        if (std::isalpha(static_cast<unsigned char>(c)) == 0) {
            upper = true;
            continue;
        }
        name += upper ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : c;
        upper = false;
    }
    return name;
}

INSTANTIATE_TEST_SUITE_P(Scenes, Frame, testing::ValuesIn(test::frameScenes()), nameOf);

}  // namespace

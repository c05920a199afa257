#include "evidence-core/network/solution.h"
#include "tests/support/network_trials.h"
#include "tests/support/random_network.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

/// Random networks with known truth (seeded): do the intervals hold it as often as they say, and is
/// χ² distributed as it should be? And does the order of the records change a digit?
namespace {

using namespace evidence;
/// Binomial σ of a share p over n trials; four of them are a false alarm once in 15,000.
double fourSigma(double p, int n) {
    return 4 * std::sqrt(p * (1 - p) / n);
}

/// The figures that `network_trials` prints over 2,000 networks, over 400 here.
TEST(Simulation, OverRandomNetworksTheFiguresKeepTheirWord) {
    const auto t = testsupport::networkTrials(400, 20260501);
    EXPECT_EQ(t.errors, 0);
    // Intervals of one network hang together: their number counts for about a third.
    EXPECT_NEAR(static_cast<double>(t.held) / t.intervals, 0.95,
                0.01 + fourSigma(0.95, t.intervals / 3));
    EXPECT_GT(testsupport::evenSpreadProbability(t.p), 0.01);
    EXPECT_LE(t.alarms, t.cleanReadings / 100);
    EXPECT_GE(t.namedFirst, t.planted * 8 / 10);
    RecordProperty("coverage_percent", std::to_string(100.0 * t.held / t.intervals));
}

TEST(Simulation, EvenSpreadIsToldFromUnevenSpread) {
    std::mt19937_64 chance(5);
    std::vector<double> even, bent;
    for (int i = 0; i < 500; ++i) {
        even.push_back(std::uniform_real_distribution<double>(0, 1)(chance));
        bent.push_back(even.back() * even.back());
    }
    EXPECT_GT(testsupport::evenSpreadProbability(even), 0.01);
    EXPECT_LT(testsupport::evenSpreadProbability(bent), 1e-6);
}

TEST(Simulation, TheOrderOfRecordsChangesNoDigit) {
    std::mt19937_64 chance(3);
    for (int i = 0; i < 20; ++i) {
        auto t = testsupport::randomNetwork(chance, false);
        auto& reg = t.sketch.reg;
        const auto before = network::solve(reg).value();
        std::shuffle(reg.readings.begin(), reg.readings.end(), chance);
        std::shuffle(reg.dimensions.begin(), reg.dimensions.end(), chance);
        std::shuffle(reg.relations.begin(), reg.relations.end(), chance);
        std::shuffle(reg.sources.begin(), reg.sources.end(), chance);
        std::shuffle(reg.frames.begin(), reg.frames.end(), chance);
        std::shuffle(reg.marks.begin(), reg.marks.end(), chance);
        const auto after = network::solve(reg).value();
        for (const auto& d : before.dimensions) {
            const auto same = std::find_if(after.dimensions.begin(), after.dimensions.end(),
                                           [&](const auto& other) { return other.id == d.id; });
            EXPECT_EQ(d.value, same->value);
            EXPECT_EQ(d.u, same->u);
            ASSERT_EQ(d.interval95.has_value(), same->interval95.has_value());
            if (d.interval95) {
                EXPECT_EQ(d.interval95->low, same->interval95->low);
            }
            EXPECT_EQ(d.ceiling, same->ceiling);
        }
        EXPECT_EQ(before.chi2, after.chi2);
        for (const auto& r : before.readings) {
            const auto same = std::find_if(after.readings.begin(), after.readings.end(),
                                           [&](const auto& other) { return other.id == r.id; });
            ASSERT_EQ(r.reliability.has_value(), same->reliability.has_value());
            if (r.reliability) {
                EXPECT_EQ(r.reliability->w, same->reliability->w);
            }
            EXPECT_EQ(r.varianceShare, same->varianceShare);
        }
    }
}

}  // namespace

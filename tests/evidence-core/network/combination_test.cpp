#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

/// Combining readings: published sums and puzzles.
namespace {

using namespace evidence;
using record::Basis;
using record::SharedErrorKind;
using testsupport::NetSketch;

// Weighted mean of two readings with an internal u, Paule and Mandel 1982, second example (checks
// 2.2): x 201.533, 216.55 with s/√n; only the weighted mean is ours, nothing is widened.
TEST(WeightedMean, OfTwoConflictingReadingsIsNotWidened) {
    NetSketch b;
    const auto d = b.dimension();
    const double u1 = 0.154 / std::sqrt(6.0), u2 = 0.25 / std::sqrt(2.0);
    b.reading(d, 201.533, u1, b.source());
    b.reading(d, 216.55, u2, b.source());
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[0].value, 203.2191562, 1e-6);
    EXPECT_NEAR(*s.dimensions[0].u, 1 / std::sqrt(1 / (u1 * u1) + 1 / (u2 * u2)), 1e-12);
    ASSERT_EQ(s.conflicts.size(), 1U);
    // A pair cannot say which of the two is wrong: both are named.
    EXPECT_EQ(s.conflicts[0].members.size(), 2U);
    EXPECT_NEAR(std::abs(s.conflicts[0].members[0].misfit), 216.55 - 201.533, 1e-9);
    EXPECT_NEAR(s.conflicts[0].members[0].uMisfit, std::hypot(u1, u2), 1e-9);
}

// Peelle's Pertinent Puzzle (Frühwirth, Neudecker, Leeb, EPJ Web Conf. 27 (2012)
// 00008): a common relative error must multiply the adjusted value. Built from the readings the
// mean is 0.882, outside both; from the adjusted value it is 1.1538462 with u 0.2453111 (first
// order: the common part adds 20 % of the mean).
TEST(PeellesPuzzle, ARelativeSharedErrorMultipliesTheAdjustedValue) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 1.5, 0.15, b.source());
    b.reading(d, 1.0, 0.10, b.source());
    auto& e = b.sharedError(SharedErrorKind::Relative, 0.2);
    e.on = {{{"r1"}, {}}, {{"r2"}, {}}};
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[0].value, 1.1538462, 1e-7);
    EXPECT_NEAR(*s.dimensions[0].u, 0.2453111, 1e-7);
    EXPECT_FALSE(s.dimensions[0].outsideReadings);
}

// An absolute error cannot do that: it moves both readings alike.
TEST(SharedError, AnAbsoluteOneAddsToTheMeanOnce) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 10.0, 0.3, b.source());
    b.reading(d, 10.6, 0.3, b.source());
    auto& e = b.sharedError(SharedErrorKind::Absolute, 0.4);
    e.on = {{{"r1"}, {}}, {{"r2"}, {}}};
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[0].value, 10.3, 1e-12);
    EXPECT_NEAR(*s.dimensions[0].u, std::hypot(0.3 / std::numbers::sqrt2, 0.4), 1e-12);
}

// One photograph's scale is shared (computed by hand): 200 and 100 px, u 0.5 px each,
// scale 10 mm/px with 2 %.
TEST(OneFrame, ItsScaleErrorIsSharedByAllItsReadings) {
    NetSketch b;
    const auto photo = b.source(record::SourceKind::Drawing);
    auto& f = b.frame(photo, record::FrameModel::Printed);
    f.print = record::Print{1.0, 10.0 / 25.4, 0.02, Basis::Measured};
    const auto d1 = b.dimension(), d2 = b.dimension(), difference = b.dimension();
    const double u = 0.5 / std::numbers::sqrt2;  // per point and axis: 0.5 px for the length
    // Their own u keeps the draughtsman out of it.
    for (const auto& [d, px] : {std::pair{d1, 200.0}, {d2, 100.0}}) {
        auto& r = b.scaled(d, "g1", b.segment(photo, px, u));
        r.u = 5 / 25.4;
    }
    b.relation("D3 = D1 - D2");
    const auto s = network::solve(b.reg).value();
    const auto mm = [&](std::size_t d) { return *s.dimensions[d].u * 25.4; };
    EXPECT_NEAR(*s.dimensions[0].value * 25.4, 2000, 1e-9);
    EXPECT_NEAR(mm(0), 40.3112887, 1e-6);
    EXPECT_NEAR(mm(1), 20.6155281, 1e-6);
    EXPECT_NEAR(mm(2), 21.2132034, 1e-6);
    EXPECT_NEAR(s.covariance(0, 1) / (*s.dimensions[0].u * *s.dimensions[1].u), 0.962650940, 1e-9);
    EXPECT_EQ(*s.dimensions[2].part, *s.dimensions[0].part);
    (void)difference;
}

// Rounded to 1/16: rectangular, u = step/√12, interval of a rectangle 0.95
// half-widths.
TEST(Rounding, IsARectangleAndItsIntervalTooNarrowForANormal) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 3.5, std::nullopt, b.source()).roundedTo = 1.0 / 16;
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[0].u, 0.018042196, 1e-9);
    EXPECT_NEAR(s.dimensions[0].interval95->high, 3.5 + 0.95 / 32, 1e-8);
    EXPECT_NEAR(s.dimensions[0].interval95->low, 3.5 - 0.95 / 32, 1e-8);
}

// Sum of four rectangles, u 1 each: 95 % half-width 3.8794067 (JCGM 101:2008, 9.2.3).
TEST(Rounding, ASumOfFourRectanglesIsConvolved) {
    NetSketch b;
    for (int i = 0; i < 4; ++i) {
        const auto d = b.dimension();
        b.reading(d, 10, std::nullopt, b.source()).halfWidth = std::numbers::sqrt3;
    }
    b.dimension();
    b.relation("D5 = D1 + D2 + D3 + D4");
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[4].u, 2, 1e-12);
    EXPECT_NEAR(s.dimensions[4].interval95->high - 40, 3.8794067, 1e-4);
}

// Chain a + b + c: contributions, and what a further reading would gain.
TEST(SeekNext, ARankOneUpdateEqualsReadjustment) {
    const auto chain = [](bool further) {
        NetSketch b;
        for (const double u : {2.0, 1.0, 1.0}) {
            const auto d = b.dimension();
            b.reg.dimensions.back().critical = true;
            b.reg.dimensions.back().tolerance = 1;
            b.reading(d, 100, u, b.source());
        }
        const auto total = b.dimension();
        b.reading(total, 300, 1, b.source());
        b.relation("D4 = D1 + D2 + D3");
        if (further) b.reading("d1", 100, 0.009, b.source());
        return network::solve(b.reg).value();
    };
    const auto before = chain(false), after = chain(true);
    EXPECT_NEAR(before.covariance(0, 0), 12.0 / 7, 1e-12);
    EXPECT_NEAR(before.covariance(0, 1), -4.0 / 7, 1e-12);
    EXPECT_NEAR(before.covariance(1, 2), -1.0 / 7, 1e-12);
    const auto trace = [](const network::Solution& s) {
        return s.covariance(0, 0) + s.covariance(1, 1) + s.covariance(2, 2);
    };
    EXPECT_NEAR(trace(before), 24.0 / 7, 1e-12);
    ASSERT_FALSE(before.seekNext.empty());
    EXPECT_EQ(before.seekNext[0].dimension, 0U);
    EXPECT_NEAR(before.seekNext[0].gain, trace(before) - trace(after), 1e-9);
}

}  // namespace

#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

/// Random networks with known truth (seeded): do the intervals hold it as often as they say, and is
/// χ² distributed as it should be? And does the order of the records change a digit?
namespace {

using namespace evidence;
using record::Basis;
using record::SourceKind;
using testsupport::NetSketch;

struct Trial {
    NetSketch b;
    std::vector<double> truth;
};

/// Eight lengths: stated (normal or rounded), taken off two scaled drawings with a common known
/// length, a closure, a symmetry with u, and a relative error that two readings share.
Trial trial(std::mt19937_64& chance, bool rounded) {
    const auto normal = [&](double u) { return std::normal_distribution<double>(0, u)(chance); };
    const auto even = [&](double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(chance);
    };
    Trial t;
    for (int i = 0; i < 8; ++i) t.truth.push_back(even(20, 100));
    t.truth[7] = t.truth[0] + t.truth[1];
    t.truth[6] = t.truth[2] + normal(0.05);
    auto& b = t.b;
    for (int i = 0; i < 8; ++i) b.dimension();
    const double shrunk = normal(0.002);
    auto& shared = b.sharedError(record::SharedErrorKind::Relative, 0.002);
    for (int i = 0; i < 8; ++i) {
        if (i == 3 || i == 5) continue;
        const double u = even(0.05, 0.3);
        const double stretch = i < 2 ? 1 + shrunk : 1;
        const std::string id = "d" + std::to_string(i + 1);
        if (rounded && i % 2 == 1) {
            const double step = even(0.5, 1);
            b.reading(id, std::round(t.truth[static_cast<std::size_t>(i)] * stretch / step) * step,
                      std::nullopt, b.source())
                .roundedTo = step;
        } else {
            b.reading(id, t.truth[static_cast<std::size_t>(i)] * stretch + normal(u), u,
                      b.source());
        }
        if (i < 2) shared.on.push_back({{b.reg.readings.back().id.text}, {}});
    }
    const auto standard = b.source(SourceKind::Standard);
    const double known = 36 + normal(0.05);
    for (int g = 0; g < 2; ++g) {
        const auto sheet = b.source(SourceKind::Drawing);
        const double scale = even(0.05, 0.1);
        const auto seen = [&](double inches) {
            return b.segment(sheet, inches / scale + normal(std::sqrt(2.0)), 1);
        };
        b.frame(sheet).references = {
            NetSketch::reference(seen(known), 36, 0.05, standard, Basis::Stated)};
        for (int i = g; i < 8; i += 2) {
            const auto mark = seen(t.truth[static_cast<std::size_t>(i)]);
            b.scaled("d" + std::to_string(i + 1), "g" + std::to_string(g + 1), mark);
        }
        if (g == 0) {
            const auto mark = seen(t.truth[3]);
            b.scaled("d4", "g1", mark);
        }
    }
    b.relation("D8 = D1 + D2");
    b.relation("D7 = D3", 0.05, Basis::Symmetry);
    return t;
}

TEST(Simulation, IntervalsHoldTheTruthAsOftenAsTheySay) {
    std::mt19937_64 chance(20260501);
    constexpr int kTrials = 300;
    std::vector<int> held(8, 0);
    int all = 0;
    for (int i = 0; i < kTrials; ++i) {
        const Trial t = trial(chance, true);
        const auto s = network::solve(t.b.reg).value();
        for (std::size_t d = 0; d < 8; ++d) {
            const auto& interval = s.dimensions[d].interval95.value();
            const bool holds = interval.low <= t.truth[d] && t.truth[d] <= interval.high;
            held[d] += holds;
            all += holds;
        }
    }
    // Binomial, 300 at 0.95: σ 3.77; ±3.9 σ is a false alarm once in 10^4 for each of eight.
    for (std::size_t d = 0; d < 8; ++d) EXPECT_NEAR(held[d], 285, 15) << d;
    EXPECT_NEAR(all / (8.0 * kTrials), 0.95, 0.015);
    RecordProperty("coverage_percent", std::to_string(100.0 * all / (8.0 * kTrials)));
}

TEST(Simulation, ChiSquareProbabilitiesAreUniform) {
    std::mt19937_64 chance(7);
    constexpr int kTrials = 300;
    std::vector<double> p;
    int alarms = 0, readings = 0;
    for (int i = 0; i < kTrials; ++i) {
        const Trial t = trial(chance, false);
        const auto s = network::solve(t.b.reg).value();
        p.push_back(s.p.value());
        alarms += static_cast<int>(s.conflicts.size());
        readings += static_cast<int>(s.readings.size());
    }
    std::sort(p.begin(), p.end());
    double distance = 0;
    for (std::size_t i = 0; i < p.size(); ++i)
        distance = std::max({distance, (static_cast<double>(i) + 1) / kTrials - p[i],
                             p[i] - static_cast<double>(i) / kTrials});
    // Kolmogorov: √n D above 1.628 has probability 0.01.
    EXPECT_LT(std::sqrt(kTrials) * distance, 1.628);
    EXPECT_LE(alarms, readings / 100);
}

TEST(Simulation, APlantedErrorIsTheFirstNamed) {
    std::mt19937_64 chance(11);
    int named = 0, tried = 0;
    for (int i = 0; i < 100; ++i) {
        Trial t = trial(chance, false);
        const auto clean = network::solve(t.b.reg).value();
        const std::size_t victim = static_cast<std::size_t>(i) % 6;
        const auto& mde = clean.readings[victim].reliability->mde;
        if (!mde) continue;
        ++tried;
        auto& number = std::get<record::Number>(*t.b.reg.readings[victim].value);
        number.value += 1.5 * *mde * (i % 2 == 0 ? 1 : -1);
        number.text.clear();
        const auto s = network::solve(t.b.reg).value();
        if (s.conflicts.empty()) continue;
        const auto& members = s.conflicts[0].members;
        named += std::any_of(members.begin(), members.end(), [&](const auto& m) {
            return m.id == t.b.reg.readings[victim].id.text;
        });
    }
    ASSERT_GT(tried, 80);
    EXPECT_GE(named, tried * 8 / 10);
}

TEST(Simulation, TheOrderOfRecordsChangesNoDigit) {
    std::mt19937_64 chance(3);
    for (int i = 0; i < 20; ++i) {
        Trial t = trial(chance, true);
        const auto before = network::solve(t.b.reg).value();
        auto& reg = t.b.reg;
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
            EXPECT_EQ(d.interval95->low, same->interval95->low);
            EXPECT_EQ(d.ceiling, same->ceiling);
        }
        EXPECT_EQ(before.chi2, after.chi2);
        for (const auto& r : before.readings) {
            const auto same = std::find_if(after.readings.begin(), after.readings.end(),
                                           [&](const auto& other) { return other.id == r.id; });
            EXPECT_EQ(r.reliability->w, same->reliability->w);
            EXPECT_EQ(r.varianceShare, same->varianceShare);
        }
    }
}

}  // namespace

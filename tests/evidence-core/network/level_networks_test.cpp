#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

/// Published levelling nets. A line of levels is a chained dimension: to − from = reading. Heights
/// are in metres there; a number is a number, so the tests call them inches.
namespace {

using namespace evidence;
using testsupport::NetSketch;

struct Line {
    std::string from, to;
    double rise = 0;
    double variance = 0;
};

double number(const std::string& text) {
    double out = 0;
    std::from_chars(text.data(), text.data() + text.size(), out);
    return out;
}

/// Lines of one net of data/level_networks.csv (source in its first lines).
std::vector<Line> linesOf(const std::string& net) {
    std::ifstream file(LOSTLINES_TEST_DATA "/level_networks.csv");
    std::vector<Line> out;
    for (std::string text; std::getline(file, text);) {
        std::istringstream row(text);
        std::array<std::string, 5> cell;
        for (auto& c : cell) std::getline(row, c, ',');
        if (cell[0] == net) out.push_back({cell[1], cell[2], number(cell[3]), number(cell[4])});
    }
    return out;
}

struct LevelNet {
    NetSketch build;
    std::map<std::string, std::string> code;  ///< of each point
    std::map<std::string, std::size_t> place;

    LevelNet(const std::vector<Line>& lines, const std::map<std::string, double>& fixed) {
        for (const auto& line : lines)
            for (const auto& point : {line.from, line.to})
                if (!code.contains(point)) {
                    place[point] = build.reg.dimensions.size();
                    build.dimension();
                    code[point] = *build.reg.dimensions.back().code;
                }
        for (const auto& [point, height] : fixed)
            build.reading(build.reg.dimensions[place.at(point)].id.text, height, 0, build.source());
        for (const auto& line : lines)
            build.relation(
                fmt::format("{} - {} = {:.12g}", code[line.to], code[line.from], line.rise),
                std::sqrt(line.variance), record::Basis::Measured);
    }
    network::Solution solved() const {
        auto s = network::solve(build.reg);
        EXPECT_TRUE(s.has_value()) << s.error().place << s.error().help;
        return *s;
    }
    double height(const network::Solution& s, const std::string& point) const {
        return *s.dimensions[place.at(point)].value;
    }
    double u(const network::Solution& s, const std::string& point) const {
        return *s.dimensions[place.at(point)].u;
    }
};

// Source: Ghilani and Wolf, Adjustment Computations, Example 12.6 (2010); Krumm, Geodetic Network
// Adjustment Examples (2020), Example 2.1, pp. 6-9. Published: heights to 1e-4, vPv 1.27212, s0
// 0.6512, residuals in mm; r, w, MDB and a-priori deviations recomputed.
class GhilaniWolf : public ::testing::Test {
  protected:
    std::vector<Line> m_lines = linesOf("GW12s");
    const std::vector<double> m_r{0.65486935, 0.32944845, 0.50917470,
                                  0.18770491, 0.43262081, 0.88618178};
};

TEST_F(GhilaniWolf, HeightsAndTheirDeviations) {
    const LevelNet net(m_lines, {{"A", 437.596}});
    const auto s = net.solved();
    EXPECT_NEAR(net.height(s, "B"), 448.108712, 1e-6);
    EXPECT_NEAR(net.height(s, "C"), 453.468468, 1e-6);
    EXPECT_NEAR(net.height(s, "D"), 444.943605, 1e-6);
    EXPECT_NEAR(net.u(s, "B"), 3.52487e-3, 1e-8);
    EXPECT_NEAR(net.u(s, "C"), 4.04843e-3, 1e-8);
    EXPECT_NEAR(net.u(s, "D"), 2.70382e-3, 1e-8);
    EXPECT_DOUBLE_EQ(net.height(s, "A"), 437.596);
    EXPECT_EQ(net.u(s, "A"), 0);
    EXPECT_NEAR(s.chi2, 1.272122829, 1e-8);
    EXPECT_EQ(s.redundancy, 3);
    EXPECT_NEAR(*s.p, 0.735763, 1e-6);
    EXPECT_NEAR(std::sqrt(s.chi2 / s.redundancy), 0.651184262, 1e-8);
}

TEST_F(GhilaniWolf, ResidualsRedundancyWAndDetectableErrors) {
    const LevelNet net(m_lines, {{"A", 437.596}});
    const auto s = net.solved();
    // v = adjusted − observed in mm; ours is −(left − right), that is observed − adjusted.
    const std::vector<double> v{3.71173, -0.24395, -1.86245, 0.39467, 1.89360, -8.53222};
    const std::vector<double> w{-0.76444748, 0.10625240,  0.52201347,
                                -0.30365020, -0.71973917, 0.75529953};
    const std::vector<double> mdb{30.63725, 28.79666, 28.95426, 28.61273, 25.12940, 52.67393};
    double sum = 0;
    for (std::size_t i = 0; i < v.size(); ++i) {
        const auto& l = s.relations[i];
        EXPECT_NEAR(*l.residual, -v[i] * 1e-3, 1e-8) << i;
        EXPECT_NEAR(*l.redundancy, m_r[i], 1e-8) << i;
        EXPECT_NEAR(*l.w, w[i], 1e-7) << i;
        EXPECT_NEAR(*l.mde, mdb[i] * 1e-3, 1e-8) << i;
        // misclosure without the relation: −residual/r, with the deviation that w divides by
        EXPECT_NEAR(*l.misclosure, -*l.residual / m_r[i], 1e-7) << i;
        EXPECT_NEAR(*l.misclosure / *l.uMisclosure, -w[i], 1e-6) << i;
        // External reliability δ0²(1 − r)/r: what a shift just not detected does to the heights.
        const double shift = *l.mde / std::sqrt(m_lines[i].variance) * std::sqrt(m_r[i]);
        const std::vector<double> external{8.998717,  34.753331, 16.459319,
                                           73.890724, 22.393281, 2.193010};
        EXPECT_NEAR(shift * shift * (1 - *l.redundancy) / *l.redundancy, external[i], 1e-4) << i;
        sum += *l.redundancy;
    }
    // A-posteriori deviations in mm, as published: 2.30, 2.64, 1.76.
    const double s0 = std::sqrt(s.chi2 / s.redundancy);
    EXPECT_NEAR(s0 * net.u(s, "B"), 2.29534e-3, 1e-8);
    EXPECT_NEAR(s0 * net.u(s, "C"), 2.63628e-3, 1e-8);
    EXPECT_NEAR(s0 * net.u(s, "D"), 1.76069e-3, 1e-8);
    EXPECT_NEAR(sum, 3, 1e-12);
    EXPECT_TRUE(s.conflicts.empty());
}

TEST_F(GhilaniWolf, APlantedBlunderIsNamedAloneAndOnce) {
    m_lines[2].rise += 0.050;  // CD
    const LevelNet net(m_lines, {{"A", 437.596}});
    const auto s = net.solved();
    EXPECT_NEAR(s.chi2, 59.639401, 1e-5);
    const std::vector<double> w{0.765467, 6.169829, 7.657661, 2.151799, -4.756246, 2.645253};
    for (std::size_t i = 0; i < w.size(); ++i) EXPECT_NEAR(*s.relations[i].w, w[i], 2e-6) << i;
    ASSERT_EQ(s.conflicts.size(), 1U);
    ASSERT_EQ(s.conflicts[0].members.size(), 1U);
    EXPECT_EQ(s.conflicts[0].members[0].id, "l3");
}

// Source: Ghilani and Wolf, chapter 12 (line data from memory, weights 12/n looked up).
TEST(GhilaniWolfRoute, WeightedHeights) {
    const LevelNet net(linesOf("GW12"), {{"X", 100.0}, {"Y", 107.5}});
    const auto s = net.solved();
    EXPECT_NEAR(net.height(s, "A"), 105.1504, 1e-9);
    EXPECT_NEAR(net.height(s, "B"), 104.4892, 1e-9);
    EXPECT_NEAR(net.height(s, "C"), 106.1972, 1e-9);
    const double s0 = std::sqrt(s.chi2 / s.redundancy);
    EXPECT_NEAR(s0, 0.107219401, 1e-9);
    EXPECT_NEAR(s0 * net.u(s, "A"), 0.032756, 1e-6);
    EXPECT_NEAR(s0 * net.u(s, "B"), 0.029759, 1e-6);
    EXPECT_NEAR(s0 * net.u(s, "C"), 0.029035, 1e-6);
    const std::vector<double> r{0.72, 0.626667, 0.56, 0.706667, 0.404444, 0.537778, 0.444444};
    for (std::size_t i = 0; i < r.size(); ++i)
        EXPECT_NEAR(*s.relations[i].redundancy, r[i], 1e-6) << i;
}

// The same with equal weights (a-priori u 1): heights, redundancy and the a-posteriori deviation.
TEST(GhilaniWolfRoute, UnweightedHeights) {
    auto lines = linesOf("GW12");
    for (auto& line : lines) line.variance = 1;
    const LevelNet net(lines, {{"X", 100.0}, {"Y", 107.5}});
    const auto s = net.solved();
    EXPECT_NEAR(net.height(s, "A"), 105.140952, 1e-6);
    EXPECT_NEAR(net.height(s, "B"), 104.482857, 1e-6);
    EXPECT_NEAR(net.height(s, "C"), 106.187619, 1e-6);
    EXPECT_NEAR(std::sqrt(s.chi2 / s.redundancy), 0.050118906, 1e-9);
    const std::vector<double> r{0.619048, 0.619048, 0.619048, 0.619048,
                                0.476190, 0.571429, 0.476190};
    for (std::size_t i = 0; i < r.size(); ++i)
        EXPECT_NEAR(*s.relations[i].redundancy, r[i], 1e-6) << i;
}

// Source: Benning, Statistik in Geodäsie, Geoinformation und Bauwesen, 8.1.
TEST(Benning, HeightsAndEqualRedundancy) {
    const LevelNet net(linesOf("BEN"), {{"4", 82.000}, {"5", 82.002}, {"6", 80.651}});
    const auto s = net.solved();
    EXPECT_NEAR(net.height(s, "1"), 83.820000, 1e-9);
    EXPECT_NEAR(net.height(s, "2"), 83.723250, 1e-9);
    EXPECT_NEAR(net.height(s, "3"), 82.729750, 1e-9);
    EXPECT_NEAR(s.chi2, 6.5e-6, 1e-12);
    const double s0 = std::sqrt(s.chi2 / s.redundancy);
    EXPECT_NEAR(s0, 0.00147196, 1e-8);
    for (const char* point : {"1", "2", "3"}) EXPECT_NEAR(s0 * net.u(s, point), 0.00104083, 1e-8);
    for (const auto& l : s.relations) EXPECT_NEAR(*l.redundancy, 0.5, 1e-12);
}

// Three lengths and their total: hand-checkable.
TEST(ThreeLengthsAndTheirTotal, OneLoopCannotSayWhichIsWrong) {
    NetSketch b;
    for (const double value : {100.0, 200.0, 300.0, 603.0}) {
        const auto d = b.dimension();
        b.reading(d, value, 1, b.source());
    }
    b.relation("D4 = D1 + D2 + D3");
    const auto s = network::solve(b.reg).value();
    const std::vector<double> adjusted{100.75, 200.75, 300.75, 602.25};
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(*s.dimensions[i].value, adjusted[i], 1e-9);
        EXPECT_NEAR(*s.dimensions[i].u, 0.8660254, 1e-7);
        const auto& r = *s.readings[i].reliability;
        EXPECT_NEAR(r.redundancy, 0.25, 1e-9);
        EXPECT_NEAR(std::abs(*r.w), 1.5, 1e-9);
        EXPECT_NEAR(*r.mde, 8.264296, 1e-6);
    }
    EXPECT_NEAR(s.chi2, 2.25, 1e-9);
    EXPECT_NEAR(*s.p, 0.133614, 1e-6);
    // The exact closure: no redundancy of its own, judged by leaving it out.
    EXPECT_NEAR(*s.relations[0].redundancy, 0, 1e-12);
    EXPECT_NEAR(*s.relations[0].residual, 0, 1e-9);
    EXPECT_NEAR(*s.relations[0].misclosure, 3, 1e-9);
    EXPECT_NEAR(std::abs(*s.relations[0].w), 1.5, 1e-9);
}

TEST(ThreeLengthsAndTheirTotal, ASecondLoopTellsThemApart) {
    NetSketch b;
    for (const double value : {100.0, 200.0, 300.0, 603.0, 302.0}) {
        const auto d = b.dimension();
        b.reading(d, value, 1, b.source());
    }
    b.relation("D4 = D1 + D2 + D3");
    b.relation("D5 = D1 + D2");
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[0].value, 100.875, 1e-9);
    EXPECT_NEAR(*s.dimensions[1].value, 200.875, 1e-9);
    EXPECT_NEAR(*s.dimensions[2].value, 300.625, 1e-9);
    EXPECT_NEAR(s.chi2, 2.375, 1e-9);
    const std::vector<double> r{0.375, 0.375, 0.375, 0.375, 0.5};
    const std::vector<double> w{1.428869, 1.428869, 1.020621, 1.020621, 0.353553};
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_NEAR(s.readings[i].reliability->redundancy, r[i], 1e-9);
        EXPECT_NEAR(std::abs(*s.readings[i].reliability->w), w[i], 1e-6);
    }
    EXPECT_NEAR(*s.dimensions[0].u, 0.7905694, 1e-7);
}

}  // namespace

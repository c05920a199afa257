#include "evidence-core/network/net.h"
#include "evidence-core/quantity/interval.h"
#include "evidence-core/statistics/monte_carlo.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

/// Intervals of what is too curved for the linear answer: the evidence is drawn anew many times,
/// each time with the errors it may have, and the sizes that follow are counted (JCGM 101:2008).
namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr std::uint64_t kSeed = 101;
/// Draws that tell whether a part is curved at all, and which of its rows are.
constexpr std::uint64_t kProbes = 64;
/// A row is curved where it departs from its slope by this share of its σ.
constexpr double kCurvedRow = 1e-3;
/// A size is where curvature moves it by this share of its u, root mean square.
constexpr double kCurvedSize = 0.02;
/// Ends of the interval that differ by this share of its half-width are taken from the draws.
constexpr double kOff = 0.05;
/// A first count, which knows the ends to about 4 % of the half-width, tells which sizes need the
/// whole one: those that differ by this share in it.
constexpr std::uint64_t kFirstDraws = 1500;
constexpr double kPerhapsOff = 0.03;
/// 10,000 draws know the ends to about 1.5 % of the half-width; a very large part gets fewer.
constexpr std::uint64_t kDraws = 10000;
constexpr std::uint64_t kDrawsOfLargePart = 2000;
constexpr std::uint64_t kProbesOfLargePart = 8;
constexpr Index kLargePart = 2000;
constexpr int kCorrections = 3;

/// One part whose observations are drawn again and again.
class Drawing {
  public:
    Drawing(const Net& net, const Adjustment& part)
        : m_net(net), m_part(part), m_at(part.influence->at()), m_x(net.fit.x) {
        for (std::size_t k = 0; k < part.rows.size(); ++k) {
            const Row& row = net.eq.rows[part.rows[k]];
            m_own.push_back(statistics::drawOf({row.ownU, row.ownShape}));
            std::vector<statistics::DrawShape> folded;
            for (const std::size_t f : row.folded)
                folded.push_back(
                    statistics::drawOf({net.eq.unknowns[f].u, net.eq.unknowns[f].shape}));
            m_inputs.push_back(m_input);
            m_input += 1 + static_cast<std::uint32_t>(folded.size());
            m_folded.push_back(std::move(folded));
            m_curved.push_back(k);
        }
        m_middle = VectorXd::Zero(static_cast<Index>(part.rows.size()));
        const auto none = Errors{m_middle, {}};
        const VectorXd still = VectorXd::Zero(static_cast<Index>(part.unknowns.size()));
        for (const std::size_t k : m_curved)
            m_middle(static_cast<Index>(k)) = predicted(k, still, none);
    }

    /// Movement of the unknowns in one trial, and how much of it is due to curvature.
    struct Moved {
        VectorXd by;
        VectorXd curved;
    };
    [[nodiscard]] Moved moved(std::uint64_t trial) {
        const Errors errors = drawn(trial);
        const VectorXd straight = m_part.influence->answer(errors.ofRow);
        Moved out{straight, VectorXd::Zero(straight.size())};
        for (int step = 0; step < kCorrections && !m_curved.empty(); ++step) {
            out.curved = m_part.influence->answer(departures(out.by, errors));
            out.by = straight + out.curved;
        }
        return out;
    }

    /// Leaves out the rows that no probe found curved.
    void keepCurvedRows(std::uint64_t probes) {
        std::vector<bool> curved(m_part.rows.size(), false);
        for (std::uint64_t trial = 0; trial < probes; ++trial) {
            const Errors errors = drawn(trial);
            const VectorXd away = departures(m_part.influence->answer(errors.ofRow), errors);
            for (std::size_t k = 0; k < curved.size(); ++k) {
                const double sigma = std::max(m_at.sigma(static_cast<Index>(k)), 1e-12);
                if (!(std::abs(away(static_cast<Index>(k))) <= kCurvedRow * sigma))
                    curved[k] = true;
            }
        }
        std::erase_if(m_curved, [&](std::size_t k) { return !curved[k]; });
    }
    [[nodiscard]] bool anyCurvedRow() const { return !m_curved.empty(); }

  private:
    struct Errors {
        VectorXd ofRow;                           ///< as they act to first order, by row
        std::vector<std::vector<double>> folded;  ///< by row; empty: none
    };

    [[nodiscard]] const Row& row(std::size_t k) const { return m_net.eq.rows[m_part.rows[k]]; }

    [[nodiscard]] Errors drawn(std::uint64_t trial) const {
        Errors out;
        out.ofRow.resize(static_cast<Index>(m_part.rows.size()));
        out.folded.resize(m_part.rows.size());
        for (std::size_t k = 0; k < m_part.rows.size(); ++k) {
            double sum =
                m_own[k].scale > 0 ? statistics::drawn(m_own[k], kSeed, m_inputs[k], trial) : 0.0;
            for (std::size_t f = 0; f < m_folded[k].size(); ++f) {
                const double error = statistics::drawn(
                    m_folded[k][f], kSeed, m_inputs[k] + 1 + static_cast<std::uint32_t>(f), trial);
                out.folded[k].push_back(error);
                for (const auto& s : m_at.at[k].slopes)
                    if (s.unknown == row(k).folded[f]) sum -= s.slope * error;
            }
            out.ofRow(static_cast<Index>(k)) = sum;
        }
        return out;
    }

    /// What the row predicts with the unknowns moved and its folded errors as drawn.
    double predicted(std::size_t k, const VectorXd& by, const Errors& errors) {
        for (const std::size_t i : row(k).unknowns)
            if (const auto column = m_net.fit.columnOf[i])
                m_x(static_cast<Index>(i)) = m_net.fit.x(static_cast<Index>(i)) + by(*column);
        for (std::size_t f = 0; f < row(k).folded.size(); ++f)
            m_x(static_cast<Index>(row(k).folded[f])) =
                m_net.eq.unknowns[row(k).folded[f]].start +
                (errors.folded.empty() ? 0.0 : errors.folded[k][f]);
        const Prediction p = row(k).predict(m_x);
        return p.defined ? p.value : std::numeric_limits<double>::quiet_NaN();
    }

    /// By row, −(what it predicts − what its slopes say); 0 for straight rows.
    VectorXd departures(const VectorXd& by, const Errors& errors) {
        VectorXd out = VectorXd::Zero(static_cast<Index>(m_part.rows.size()));
        for (const std::size_t k : m_curved) {
            double straight = m_middle(static_cast<Index>(k));
            for (const auto& s : m_at.at[k].slopes) {
                if (m_net.eq.isFolded[s.unknown]) {
                    for (std::size_t f = 0; f < row(k).folded.size(); ++f)
                        if (row(k).folded[f] == s.unknown)
                            straight += s.slope * errors.folded[k][f];
                } else if (const auto column = m_net.fit.columnOf[s.unknown]) {
                    straight += s.slope * by(*column);
                }
            }
            out(static_cast<Index>(k)) = straight - predicted(k, by, errors);
        }
        return out;
    }

    const Net& m_net;
    const Adjustment& m_part;
    const Linearised& m_at;
    VectorXd m_x;
    std::vector<statistics::DrawShape> m_own;
    std::vector<std::vector<statistics::DrawShape>> m_folded;
    std::vector<std::uint32_t> m_inputs;  ///< number of each row's own error among the inputs
    std::uint32_t m_input = 0;
    VectorXd m_middle;                  ///< prediction with every folded error at its prior
    std::vector<std::size_t> m_curved;  ///< rows, by place
};

/// Dimensions of a part that curvature moves noticeably.
std::vector<std::size_t> curvedDimensions(const Net& net, const Solution& s,
                                          const PartSolution& part, Drawing& drawing,
                                          std::uint64_t probes) {
    VectorXd squares;
    for (std::uint64_t trial = 0; trial < probes; ++trial) {
        const VectorXd curved = drawing.moved(trial).curved;
        if (squares.size() == 0) squares = VectorXd::Zero(curved.size());
        squares += curved.cwiseAbs2();
    }
    std::vector<std::size_t> out;
    for (const std::size_t d : part.dimensions) {
        if (!s.dimensions[d].u || !(*s.dimensions[d].u > 0)) continue;
        const auto column = *net.fit.columnOf[*net.eq.ofDimension[d]];
        const double rms = std::sqrt(squares(column) / static_cast<double>(probes));
        // What cannot be followed at all (no number) is curved too.
        if (!(rms <= kCurvedSize * *s.dimensions[d].u)) out.push_back(d);
    }
    return out;
}

/// By how much of its half-width the counted interval differs from the linear one.
double off(const statistics::Propagated& drawn, const DimensionSolution& linear) {
    const double half = (linear.uncut95->high - linear.uncut95->low) / 2;
    return std::max(std::abs(drawn.symmetric.low - linear.uncut95->low),
                    std::abs(drawn.symmetric.high - linear.uncut95->high)) /
           half;
}

/// What `count` draws give for some dimensions of a part; absent where most have no number.
std::vector<std::optional<statistics::Propagated>> counted(const Net& net, const Solution& s,
                                                           Drawing& drawing,
                                                           const std::vector<std::size_t>& of,
                                                           std::uint64_t count) {
    std::vector<std::vector<double>> values(of.size());
    for (std::uint64_t trial = 0; trial < count; ++trial) {
        const VectorXd by = drawing.moved(trial).by;
        for (std::size_t i = 0; i < of.size(); ++i) {
            const double value =
                *s.dimensions[of[i]].value + by(*net.fit.columnOf[*net.eq.ofDimension[of[i]]]);
            if (std::isfinite(value)) values[i].push_back(value);
        }
    }
    std::vector<std::optional<statistics::Propagated>> out(of.size());
    for (std::size_t i = 0; i < of.size(); ++i)
        if (values[i].size() > count / 2)
            out[i] = statistics::summaryOf(std::move(values[i]), 0.95);
    return out;
}

}  // namespace

void writeDrawnIntervals(const Net& net, Solution& to) {
    for (const auto& part : to.parts) {
        if (!part.converged || part.dimensions.empty()) continue;
        const std::size_t index = *net.fit.partOf[*net.eq.ofDimension[part.dimensions.front()]];
        const Adjustment& adjusted = net.fit.parts[index];
        const bool large = adjusted.influence->freeUnknowns() > kLargePart;
        const std::uint64_t probes = large ? kProbesOfLargePart : kProbes;
        Drawing drawing(net, adjusted);
        drawing.keepCurvedRows(probes);
        if (!drawing.anyCurvedRow()) continue;
        auto curved = curvedDimensions(net, to, part, drawing, probes);
        const auto first = counted(net, to, drawing, curved, curved.empty() ? 0 : kFirstDraws);
        std::vector<std::size_t> open;
        for (std::size_t i = 0; i < curved.size(); ++i)
            if (first[i] && off(*first[i], to.dimensions[curved[i]]) > kPerhapsOff)
                open.push_back(curved[i]);
        if (open.empty()) continue;
        const std::uint64_t count = large ? kDrawsOfLargePart : kDraws;
        const auto whole = counted(net, to, drawing, open, count);
        for (std::size_t i = 0; i < open.size(); ++i) {
            auto& d = to.dimensions[open[i]];
            if (!whole[i] || !(off(*whole[i], d) > kOff)) continue;
            d.draws = static_cast<int>(count);
            d.uncut95 = Interval{whole[i]->symmetric.low, whole[i]->symmetric.high};
            const auto cut = quantity::cutTo(whole[i]->symmetric, d.limits.low, d.limits.high);
            d.interval95 = Interval{cut.low, cut.high};
        }
    }
}

}  // namespace evidence::network

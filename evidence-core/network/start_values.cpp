#include "evidence-core/network/equations.h"

#include <algorithm>
#include <cmath>
#include <set>

/// Start values: what one row says about its last unknown, carried on until nothing is left.
namespace evidence::network {

namespace {

/// Sizes for what no evidence reaches. Any value would do; unequal ones keep differences and
/// ratios of such unknowns from vanishing by chance.
constexpr double kAnyLength = 10.0;
constexpr double kAnyScale = 0.1;
constexpr double kGoldenFraction = 0.6180339887498949;

class Carrier {
  public:
    explicit Carrier(Equations& eq) : m_eq(eq), m_known(eq.unknowns.size(), false) {
        m_x.resize(static_cast<Eigen::Index>(eq.unknowns.size()));
        for (std::size_t i = 0; i < eq.unknowns.size(); ++i) {
            const auto& u = eq.unknowns[i];
            m_known[i] = u.kind == UnknownKind::Error;
            m_x(index(i)) = u.kind == UnknownKind::Error   ? u.start
                            : u.kind == UnknownKind::Scale ? kAnyScale
                                                           : kAnyLength;
        }
        m_rowsOf.resize(eq.unknowns.size());
        m_open.assign(eq.rows.size(), 0);
        std::vector<std::size_t> order;
        for (std::size_t r = 0; r < eq.rows.size(); ++r) {
            if (eq.rows[r].kind == RowKind::Prior || eq.rows[r].sign != RelationSign::Equal)
                continue;
            order.push_back(r);
            for (const std::size_t i : eq.rows[r].unknowns) {
                if (m_known[i]) continue;
                m_rowsOf[i].push_back(r);
                ++m_open[r];
            }
        }
        // The strongest evidence speaks first; limits, inference and mere checks last.
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            const auto rank = [&](std::size_t r) {
                const Row& row = m_eq.rows[r];
                return std::pair(row.role == RowRole::Check ? 3 : static_cast<int>(row.role),
                                 row.strength.value_or(record::Grade::InHand));
            };
            const auto ra = rank(a), rb = rank(b);
            return ra != rb ? ra < rb : m_eq.rows[a].key < m_eq.rows[b].key;
        });
        m_rank.assign(eq.rows.size(), 0);
        for (std::size_t k = 0; k < order.size(); ++k) m_rank[order[k]] = k;
        for (const std::size_t r : order)
            if (m_open[r] == 1) m_ready.emplace(m_rank[r], r);
    }

    void run() {
        std::vector<std::size_t> byKey(m_eq.unknowns.size());
        for (std::size_t i = 0; i < byKey.size(); ++i) byKey[i] = i;
        std::sort(byKey.begin(), byKey.end(), [&](std::size_t a, std::size_t b) {
            return m_eq.unknowns[a].key < m_eq.unknowns[b].key;
        });
        carry();
        double fraction = 0;
        for (const std::size_t i : byKey) {
            if (m_known[i]) continue;
            fraction += kGoldenFraction;
            fraction -= std::floor(fraction);
            m_x(index(i)) *= 1 + fraction;
            know(i);
            carry();
        }
        for (std::size_t i = 0; i < m_eq.unknowns.size(); ++i) {
            auto& u = m_eq.unknowns[i];
            if (u.kind == UnknownKind::Error) continue;
            u.start = m_x(index(i));
            u.size = std::abs(u.start) > 1e-6 ? std::abs(u.start) : 1.0;
        }
    }

  private:
    static Eigen::Index index(std::size_t i) { return static_cast<Eigen::Index>(i); }

    void know(std::size_t i) {
        m_known[i] = true;
        for (const std::size_t r : m_rowsOf[i])
            if (--m_open[r] == 1) m_ready.emplace(m_rank[r], r);
    }

    /// The strongest row with one unknown left speaks, until none has.
    void carry() {
        while (!m_ready.empty()) {
            const std::size_t r = m_ready.begin()->second;
            m_ready.erase(m_ready.begin());
            if (m_open[r] != 1) continue;
            const auto& unknowns = m_eq.rows[r].unknowns;
            const std::size_t open = *std::find_if(unknowns.begin(), unknowns.end(),
                                                   [&](std::size_t i) { return !m_known[i]; });
            if (solveFor(m_eq.rows[r], open)) know(open);
        }
    }

    /// Newton on one unknown; a scale, which divides, by the ratio of what is seen to what it
    /// gives.
    bool solveFor(const Row& row, std::size_t i) {
        const double before = m_x(index(i));
        for (int step = 0; step < 40; ++step) {
            const Prediction p = row.predict(m_x);
            const auto slope = std::find_if(p.slopes.begin(), p.slopes.end(),
                                            [&](const Slope& s) { return s.unknown == i; });
            if (!p.defined || slope == p.slopes.end() || slope->slope == 0) break;
            double next = m_x(index(i)) + (row.observed - p.value) / slope->slope;
            if (m_eq.unknowns[i].kind == UnknownKind::Scale && row.kind != RowKind::Print) {
                if (!(row.observed > 0) || !(p.value > 0)) break;
                next = m_x(index(i)) * p.value / row.observed;
            }
            if (!std::isfinite(next)) break;
            const double change = std::abs(next - m_x(index(i)));
            m_x(index(i)) = next;
            if (change <= 1e-12 * std::abs(next)) return acceptable(i);
        }
        m_x(index(i)) = before;
        return false;
    }

    [[nodiscard]] bool acceptable(std::size_t i) const {
        return m_eq.unknowns[i].kind != UnknownKind::Scale || m_x(index(i)) > 0;
    }

    Equations& m_eq;
    std::vector<bool> m_known;
    std::vector<std::vector<std::size_t>> m_rowsOf;         ///< by unknown
    std::vector<int> m_open;                                ///< by row: unknowns not known yet
    std::vector<std::size_t> m_rank;                        ///< by row
    std::set<std::pair<std::size_t, std::size_t>> m_ready;  ///< rank, row
    Eigen::VectorXd m_x;
};

}  // namespace

void findStartValues(Equations& eq) {
    Carrier(eq).run();
}

}  // namespace evidence::network

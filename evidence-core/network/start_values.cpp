#include "evidence-core/network/equations.h"

#include <algorithm>
#include <cmath>

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
        for (std::size_t r = 0; r < eq.rows.size(); ++r)
            if (eq.rows[r].kind != RowKind::Prior && eq.rows[r].sign == RelationSign::Equal)
                m_order.push_back(r);
        // The strongest evidence speaks first; limits, inference and mere checks last.
        std::sort(m_order.begin(), m_order.end(), [&](std::size_t a, std::size_t b) {
            const auto rank = [&](std::size_t r) {
                const Row& row = m_eq.rows[r];
                return std::tuple(row.role == RowRole::Check ? 3 : static_cast<int>(row.role),
                                  row.strength.value_or(record::Grade::InHand), std::cref(row.key));
            };
            const auto ra = rank(a), rb = rank(b);
            return std::tie(std::get<0>(ra), std::get<1>(ra), std::get<2>(ra).get()) <
                   std::tie(std::get<0>(rb), std::get<1>(rb), std::get<2>(rb).get());
        });
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
            m_known[i] = true;
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

    /// Repeats passes over the rows until none determines anything more.
    void carry() {
        for (bool moved = true; moved;) {
            moved = false;
            for (const std::size_t r : m_order) {
                const Row& row = m_eq.rows[r];
                std::optional<std::size_t> open;
                int count = 0;
                for (const std::size_t i : row.unknowns)
                    if (!m_known[i]) {
                        open = i;
                        ++count;
                    }
                if (count != 1 || !solveFor(row, *open)) continue;
                m_known[*open] = true;
                moved = true;
            }
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
    std::vector<std::size_t> m_order;
    Eigen::VectorXd m_x;
};

}  // namespace

void findStartValues(Equations& eq) {
    Carrier(eq).run();
}

}  // namespace evidence::network

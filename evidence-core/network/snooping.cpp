#include "evidence-core/network/net.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

/// Conflicts, one removal at a time (data snooping; Baarda 1968).
namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// w of readings that no test can tell apart correlate beyond this.
constexpr double kInseparable = 0.95;
/// Where two |w| are equal to rounding, the order of the content decides.
constexpr double kTie = 1e-9;
/// Squared correlation below which two rows have nothing to do with each other.
constexpr double kUnrelated = 1e-22;

bool canBeNamed(const Net& net, const Row& row) {
    switch (net.eq.leaves[row.leaf].kind) {
        case LeafKind::Reading:
        case LeafKind::Limit:
        case LeafKind::Reference:
        case LeafKind::Print:
        case LeafKind::Relation:
        case LeafKind::SharedError:
        case LeafKind::Correction:
        case LeafKind::OffPlane:
            return true;
        case LeafKind::Mark:
        case LeafKind::Workmanship:
        case LeafKind::Placing:
            return false;
    }
    return false;
}

/// Readings are suspected before what was assumed between them.
bool suspectedFirst(const Row& row) {
    return row.kind != RowKind::Relation;
}

class Snooper {
  public:
    Snooper(const Net& net, const Adjustment& part)
        : m_net(net),
          m_part(part),
          m_lambda(part.influence->lambda()),
          m_variance(part.influence->lambdaVariance()),
          m_first(m_variance) {
        for (std::size_t k = 0; k < part.rows.size(); ++k) {
            m_open.push_back(part.influence->checked(k) && canBeNamed(net, row(k)));
            weigh(k);
        }
    }

    std::vector<Conflict> run() {
        std::vector<Conflict> out;
        while (const auto worst = largest()) {
            const auto with = covarianceWith(*worst);
            out.push_back(groupOf(*worst, with));
            remove(*worst, with);
        }
        return out;
    }

  private:
    static Index index(std::size_t k) { return static_cast<Index>(k); }

    [[nodiscard]] bool testable(std::size_t k) const {
        return m_open[k] && m_variance(index(k)) > 1e-9 * m_first(index(k));
    }
    [[nodiscard]] double w(std::size_t k) const {
        return m_lambda(index(k)) / std::sqrt(m_variance(index(k)));
    }
    [[nodiscard]] const Row& row(std::size_t k) const { return m_net.eq.rows[m_part.rows[k]]; }

    /// Keeps the list of suspects true of one row.
    void weigh(std::size_t k) {
        if (testable(k) && std::abs(w(k)) > m_net.criticalW())
            m_suspects.insert(k);
        else
            m_suspects.erase(k);
    }

    [[nodiscard]] std::optional<std::size_t> largest() const {
        std::optional<std::size_t> worst;
        double most = 0;
        for (const std::size_t k : m_suspects) {
            const double own = std::abs(w(k));
            if (!worst || own > most * (1 + kTie)) {
                worst = k;
                most = own;
                continue;
            }
            const bool tied = own >= most * (1 - kTie);
            if (tied && suspectedFirst(row(k)) && !suspectedFirst(row(*worst))) {
                worst = k;
                most = own;
            }
        }
        return worst;
    }

    [[nodiscard]] ConflictMember member(std::size_t k) const {
        const double c = m_variance(index(k));
        const double unit = m_part.influence->at().at[k].perUnit;
        return {m_net.eq.leaves[row(k).leaf].id, w(k), m_lambda(index(k)) / c / unit,
                1 / std::sqrt(c) / std::abs(unit)};
    }

    /// Covariance of the row's λ with all others', as the removals so far have left it; those that
    /// hardly hang together with it are left out.
    [[nodiscard]] SparseVector covarianceWith(std::size_t k) const {
        VectorXd whole = m_part.influence->lambdaCovarianceWith(k);
        for (const auto& [column, variance] : m_removed) {
            const auto own =
                std::lower_bound(column.begin(), column.end(), std::pair{index(k), -kInfinite});
            if (own == column.end() || own->first != index(k)) continue;
            for (const auto& [i, value] : column) whole(i) -= value * (own->second / variance);
        }
        SparseVector out;
        for (Index i = 0; i < whole.size(); ++i)
            if (whole(i) * whole(i) > kUnrelated * m_first(i) * m_first(index(k)))
                out.emplace_back(i, whole(i));
        return out;
    }

    [[nodiscard]] Conflict groupOf(std::size_t worst, const SparseVector& with) const {
        Conflict out;
        out.members.push_back(member(worst));
        std::vector<std::size_t> others;
        for (const auto& [i, covariance] : with) {
            const auto k = static_cast<std::size_t>(i);
            if (k == worst || !testable(k)) continue;
            const double correlation =
                covariance / std::sqrt(m_variance(i) * m_variance(index(worst)));
            if (std::abs(correlation) > kInseparable) others.push_back(k);
        }
        std::stable_sort(others.begin(), others.end(), [&](std::size_t a, std::size_t b) {
            return std::abs(w(a)) > std::abs(w(b)) * (1 + kTie);
        });
        for (const std::size_t k : others) out.members.push_back(member(k));
        return out;
    }

    /// The network without that row, by a rank-one update of the multipliers.
    void remove(std::size_t k, const SparseVector& with) {
        const double c = m_variance(index(k));
        const double lambda = m_lambda(index(k));
        m_open[k] = false;
        for (const auto& [i, covariance] : with) {
            m_lambda(i) -= covariance * (lambda / c);
            m_variance(i) -= covariance * covariance / c;
            weigh(static_cast<std::size_t>(i));
        }
        m_suspects.erase(k);
        m_removed.emplace_back(with, c);
    }

    static constexpr double kInfinite = std::numeric_limits<double>::infinity();

    const Net& m_net;
    const Adjustment& m_part;
    VectorXd m_lambda;
    VectorXd m_variance;
    VectorXd m_first;
    std::vector<bool> m_open;
    std::set<std::size_t> m_suspects;  ///< rows whose |w| is beyond what chance allows
    std::vector<std::pair<SparseVector, double>> m_removed;
};

}  // namespace

std::vector<Conflict> conflictsOf(const Net& net) {
    std::vector<Conflict> out;
    for (const auto& part : net.fit.parts) {
        if (!part.converged) continue;
        auto found = Snooper(net, part).run();
        std::move(found.begin(), found.end(), std::back_inserter(out));
    }
    std::stable_sort(out.begin(), out.end(), [](const Conflict& a, const Conflict& b) {
        return std::abs(a.members[0].w) > std::abs(b.members[0].w);
    });
    return out;
}

}  // namespace evidence::network

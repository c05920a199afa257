#include "evidence-core/network/joined.h"
#include "evidence-core/network/structure.h"

#include <Eigen/QR>
#include <Eigen/SparseCholesky>

#include <algorithm>
#include <cmath>
#include <map>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr double kRankTolerance = 1e-9;
constexpr int kMostSteps = 30;
/// Groups of relations up to this size are solved with least norm exactly, larger ones with a
/// trace of damping that the next step makes good.
constexpr std::size_t kDense = 400;
constexpr double kTrace = 1e-12;

/// Relations that hang together by the sizes in them, linearised in relative terms.
class Group {
  public:
    Group(const Equations& eq, std::vector<const Row*> relations)
        : m_eq(eq), m_relations(std::move(relations)) {
        for (const Row* row : m_relations)
            for (const std::size_t i : row->unknowns)
                // Errors stay at their prior: relations are satisfied by sizes.
                if (eq.unknowns[i].kind != UnknownKind::Error) m_unknowns.push_back(i);
        std::sort(m_unknowns.begin(), m_unknowns.end());
        m_unknowns.erase(std::unique(m_unknowns.begin(), m_unknowns.end()), m_unknowns.end());
    }

    void satisfy(VectorXd& x) {
        for (int step = 0; step < kMostSteps; ++step) {
            linearise(x);
            if (m_open.lpNorm<Eigen::Infinity>() < 1e-14) return;
            const VectorXd dx = leastNorm();
            if (!dx.allFinite()) return;
            const double fraction = go(dx, x);
            if (dx.lpNorm<Eigen::Infinity>() * fraction < 1e-15) return;
        }
    }

  private:
    void linearise(const VectorXd& x) {
        std::vector<Eigen::Triplet<double>> entries;
        m_open = VectorXd::Zero(static_cast<Index>(m_relations.size()));
        for (std::size_t r = 0; r < m_relations.size(); ++r) {
            const Prediction p = m_relations[r]->predict(x);
            if (!p.defined) continue;
            double norm = 0;
            for (const auto& s : p.slopes)
                if (m_eq.unknowns[s.unknown].kind != UnknownKind::Error)
                    norm = std::hypot(norm, s.slope * m_eq.unknowns[s.unknown].size);
            if (!(norm > 0)) continue;
            for (const auto& s : p.slopes)
                if (m_eq.unknowns[s.unknown].kind != UnknownKind::Error)
                    entries.emplace_back(static_cast<int>(r), place(s.unknown),
                                         s.slope * m_eq.unknowns[s.unknown].size / norm);
            m_open(static_cast<Index>(r)) = -p.value / norm;
        }
        m_slopes.resize(static_cast<Index>(m_relations.size()),
                        static_cast<Index>(m_unknowns.size()));
        m_slopes.setFromTriplets(entries.begin(), entries.end());
    }

    [[nodiscard]] int place(std::size_t unknown) const {
        return static_cast<int>(std::lower_bound(m_unknowns.begin(), m_unknowns.end(), unknown) -
                                m_unknowns.begin());
    }

    [[nodiscard]] VectorXd leastNorm() const {
        if (m_relations.size() <= kDense) {
            Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> decomposition;
            decomposition.setThreshold(kRankTolerance);
            decomposition.compute(Eigen::MatrixXd(m_slopes));
            return decomposition.solve(m_open);
        }
        Eigen::SparseMatrix<double> normal = m_slopes * m_slopes.transpose();
        for (Index i = 0; i < normal.rows(); ++i) normal.coeffRef(i, i) += kTrace;
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor(normal);
        return m_slopes.transpose() * factor.solve(m_open);
    }

    /// Goes along dx as far as all relations can bear; answers the fraction.
    double go(const VectorXd& dx, VectorXd& x) const {
        VectorXd start(dx.size());
        for (Index j = 0; j < dx.size(); ++j) start(j) = x(at(j));
        double fraction = 1;
        for (; fraction > 1e-3; fraction /= 2) {
            for (Index j = 0; j < dx.size(); ++j)
                x(at(j)) = start(j) + fraction * dx(j) * m_eq.unknowns[m_unknowns[un(j)]].size;
            if (std::all_of(m_relations.begin(), m_relations.end(),
                            [&](const Row* row) { return row->predict(x).defined; }))
                return fraction;
        }
        for (Index j = 0; j < dx.size(); ++j) x(at(j)) = start(j);
        return fraction;
    }

    static std::size_t un(Index j) { return static_cast<std::size_t>(j); }
    [[nodiscard]] Index at(Index j) const { return static_cast<Index>(m_unknowns[un(j)]); }

    const Equations& m_eq;
    std::vector<const Row*> m_relations;
    std::vector<std::size_t> m_unknowns;
    Eigen::SparseMatrix<double> m_slopes;
    VectorXd m_open;
};

}  // namespace

VectorXd relationPoint(const Equations& eq) {
    VectorXd x(static_cast<Index>(eq.unknowns.size()));
    for (std::size_t i = 0; i < eq.unknowns.size(); ++i)
        x(static_cast<Index>(i)) = eq.unknowns[i].start;
    Joined joined(eq.unknowns.size());
    std::vector<std::pair<const Row*, std::size_t>> relations;  // with one of its sizes
    for (const auto& row : eq.rows) {
        if (row.kind != RowKind::Relation || row.role == RowRole::Check) continue;
        std::optional<std::size_t> first;
        for (const std::size_t i : row.unknowns) {
            if (eq.unknowns[i].kind == UnknownKind::Error) continue;
            if (first) joined.join(i, *first);
            first = i;
        }
        if (first) relations.emplace_back(&row, *first);
    }
    std::map<std::size_t, std::vector<const Row*>> groups;
    for (const auto& [row, unknown] : relations) groups[joined.leader(unknown)].push_back(row);
    for (auto& [leader, group] : groups) Group(eq, std::move(group)).satisfy(x);
    return x;
}

}  // namespace evidence::network

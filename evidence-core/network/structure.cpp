#include "evidence-core/network/structure.h"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace evidence::network {

namespace {

using Index = Eigen::Index;

/// Relative pivots below this are rounding: rows and columns are scaled to 1, relations are
/// satisfied to about 1e-13, and what people write makes no pivot this small.
constexpr double kRankTolerance = 1e-9;
/// Relative slopes below this are nought.
constexpr double kNoSlope = 1e-12;
/// Share of a null direction below which an unknown does not move in it.
constexpr double kStill = 1e-7;

std::size_t leaderOf(std::vector<std::size_t>& joined, std::size_t i) {
    while (joined[i] != i) {
        joined[i] = joined[joined[i]];
        i = joined[i];
    }
    return i;
}

}  // namespace

Eigen::VectorXd relationPoint(const Equations& eq) {
    const auto n = static_cast<Index>(eq.unknowns.size());
    Eigen::VectorXd x(n), size(n);
    for (Index i = 0; i < n; ++i) {
        x(i) = eq.unknowns[static_cast<std::size_t>(i)].start;
        size(i) = eq.unknowns[static_cast<std::size_t>(i)].size;
    }
    std::vector<const Row*> relations;
    for (const auto& row : eq.rows)
        if (row.kind == RowKind::Relation && row.role != RowRole::Check) relations.push_back(&row);
    if (relations.empty()) return x;

    for (int step = 0; step < 30; ++step) {
        const auto m = static_cast<Index>(relations.size());
        Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(m, n);
        Eigen::VectorXd open = Eigen::VectorXd::Zero(m);
        for (Index r = 0; r < m; ++r) {
            const Prediction p = relations[static_cast<std::size_t>(r)]->predict(x);
            if (!p.defined) continue;
            for (const auto& s : p.slopes) {
                const auto j = static_cast<Index>(s.unknown);
                // Errors stay at their prior: relations are satisfied by sizes.
                if (eq.unknowns[s.unknown].kind != UnknownKind::Error)
                    slopes(r, j) = s.slope * size(j);
            }
            const double norm = slopes.row(r).norm();
            if (!(norm > 0)) continue;
            slopes.row(r) /= norm;
            open(r) = -p.value / norm;
        }
        if (open.lpNorm<Eigen::Infinity>() < 1e-14) break;
        Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> decomposition;
        decomposition.setThreshold(kRankTolerance);
        decomposition.compute(slopes);
        const Eigen::VectorXd dx = decomposition.solve(open);
        double fraction = 1;
        for (; fraction > 1e-3; fraction /= 2) {
            const Eigen::VectorXd next = x + fraction * size.cwiseProduct(dx);
            if (std::all_of(relations.begin(), relations.end(),
                            [&](const Row* row) { return row->predict(next).defined; })) {
                x = next;
                break;
            }
        }
        if (dx.lpNorm<Eigen::Infinity>() * fraction < 1e-15) break;
    }
    return x;
}

namespace {

/// Sizes that make every slope a relative one. An error is sized by what it does where it does
/// most, not by its u, so that a small u does not look like a missing link.
Eigen::VectorXd relativeSizes(const Equations& eq, const Eigen::VectorXd& point,
                              const std::vector<Prediction>& at) {
    Eigen::VectorXd size = Eigen::VectorXd::Ones(point.size());
    for (std::size_t i = 0; i < eq.unknowns.size(); ++i)
        if (eq.unknowns[i].kind != UnknownKind::Error)
            size(static_cast<Index>(i)) =
                std::max(std::abs(point(static_cast<Index>(i))), 1e-6 * eq.unknowns[i].size);
    Eigen::VectorXd effect = Eigen::VectorXd::Zero(point.size());
    for (std::size_t r = 0; r < eq.rows.size(); ++r) {
        if (eq.rows[r].kind == RowKind::Prior) continue;
        double norm = 0;
        for (const auto& s : at[r].slopes)
            if (eq.unknowns[s.unknown].kind != UnknownKind::Error)
                norm = std::hypot(norm, s.slope * size(static_cast<Index>(s.unknown)));
        if (!(norm > 0)) continue;
        for (const auto& s : at[r].slopes)
            if (eq.unknowns[s.unknown].kind == UnknownKind::Error) {
                double& most = effect(static_cast<Index>(s.unknown));
                most = std::max(most, std::abs(s.slope) / norm);
            }
    }
    for (Index i = 0; i < size.size(); ++i)
        if (effect(i) > 0) size(i) = 1 / effect(i);
    return size;
}

}  // namespace

Structure::Structure(const Equations& eq, const Eigen::VectorXd& point)
    : m_unknowns(eq.unknowns.size()), m_rowsOf(eq.unknowns.size()) {
    std::vector<Prediction> at;
    at.reserve(eq.rows.size());
    for (const auto& row : eq.rows) at.push_back(row.predict(point));
    const Eigen::VectorXd size = relativeSizes(eq, point, at);
    m_rows.reserve(eq.rows.size());
    for (std::size_t r = 0; r < eq.rows.size(); ++r) {
        std::vector<Slope> slopes;
        double norm = 0;
        for (const auto& s : at[r].slopes) {
            if (eq.isFolded[s.unknown]) continue;
            const double relative = s.slope * size(static_cast<Index>(s.unknown));
            slopes.push_back({s.unknown, relative});
            norm = std::hypot(norm, relative);
        }
        std::erase_if(slopes, [&](const Slope& s) { return std::abs(s.slope) <= kNoSlope * norm; });
        for (auto& s : slopes) {
            s.slope /= norm;
            m_rowsOf[s.unknown].push_back(r);
        }
        m_rows.push_back(std::move(slopes));
    }
}

Structure::Estimability Structure::estimability(const RowMask& use) const {
    Estimability out;
    out.estimable.assign(m_unknowns, false);
    std::vector<int> open(m_rows.size(), 0);
    std::vector<std::size_t> ready;
    for (std::size_t r = 0; r < m_rows.size(); ++r) {
        if (!use[r]) continue;
        open[r] = static_cast<int>(m_rows[r].size());
        if (open[r] == 1) ready.push_back(r);
    }
    while (!ready.empty()) {
        const std::size_t r = ready.back();
        ready.pop_back();
        if (open[r] != 1) continue;
        for (const auto& s : m_rows[r]) {
            if (out.estimable[s.unknown]) continue;
            out.estimable[s.unknown] = true;
            for (const std::size_t other : m_rowsOf[s.unknown])
                if (use[other] && --open[other] == 1) ready.push_back(other);
        }
    }

    // What is left hangs together in groups, each decided by its rank.
    std::vector<std::size_t> joined(m_unknowns);
    std::iota(joined.begin(), joined.end(), std::size_t{0});
    std::vector<std::size_t> undecided;
    for (std::size_t r = 0; r < m_rows.size(); ++r) {
        if (!use[r] || open[r] < 2) continue;
        undecided.push_back(r);
        std::optional<std::size_t> first;
        for (const auto& s : m_rows[r]) {
            if (out.estimable[s.unknown]) continue;
            if (!first) first = leaderOf(joined, s.unknown);
            joined[leaderOf(joined, s.unknown)] = *first;
        }
    }
    std::map<std::size_t, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < m_unknowns; ++i)
        if (!out.estimable[i]) groups[leaderOf(joined, i)].push_back(i);
    std::map<std::size_t, std::vector<std::size_t>> rowsOfGroup;
    for (const std::size_t r : undecided)
        for (const auto& s : m_rows[r])
            if (!out.estimable[s.unknown]) {
                rowsOfGroup[leaderOf(joined, s.unknown)].push_back(r);
                break;
            }
    const std::vector<bool> known = out.estimable;
    for (const auto& [leader, members] : groups) {
        const auto& rows = rowsOfGroup[leader];
        if (rows.empty()) {
            out.free.insert(out.free.end(), members.begin(), members.end());
            continue;
        }
        std::map<std::size_t, Index> column;
        for (const std::size_t i : members) column.emplace(i, static_cast<Index>(column.size()));
        Eigen::MatrixXd a = Eigen::MatrixXd::Zero(static_cast<Index>(rows.size()),
                                                  static_cast<Index>(members.size()));
        for (std::size_t k = 0; k < rows.size(); ++k)
            for (const auto& s : m_rows[rows[k]])
                if (!known[s.unknown]) a(static_cast<Index>(k), column.at(s.unknown)) = s.slope;
        Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr;
        qr.setThreshold(kRankTolerance);
        qr.compute(a);
        const Index rank = qr.rank();
        const Index n = a.cols();
        const auto& order = qr.colsPermutation().indices();
        Eigen::VectorXd moves = Eigen::VectorXd::Zero(rank);
        if (rank < n) {
            const Eigen::MatrixXd null = qr.matrixR()
                                             .topLeftCorner(rank, rank)
                                             .triangularView<Eigen::Upper>()
                                             .solve(qr.matrixR().topRightCorner(rank, n - rank));
            moves = null.rowwise().norm();
        }
        for (Index j = 0; j < rank; ++j)
            out.estimable[members[static_cast<std::size_t>(order(j))]] = moves(j) < kStill;
        for (Index j = rank; j < n; ++j)
            out.free.push_back(members[static_cast<std::size_t>(order(j))]);
    }
    std::sort(out.free.begin(), out.free.end());
    return out;
}

std::vector<std::vector<std::size_t>> Structure::lostWithout(
    const RowMask& use, const std::vector<std::size_t>& of,
    const std::vector<std::size_t>& free) const {
    std::vector<std::vector<std::size_t>> lost(m_rows.size());
    std::vector<Index> column(m_unknowns, -1);
    Index n = 0;
    for (const std::size_t i : of)
        if (!std::binary_search(free.begin(), free.end(), i)) column[i] = n++;
    std::vector<std::size_t> rows;
    for (std::size_t r = 0; r < m_rows.size(); ++r)
        if (use[r] && std::any_of(m_rows[r].begin(), m_rows[r].end(),
                                  [&](const Slope& s) { return column[s.unknown] >= 0; }))
            rows.push_back(r);
    if (n == 0 || std::cmp_less(rows.size(), n)) return lost;
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(static_cast<Index>(rows.size()), n);
    for (std::size_t k = 0; k < rows.size(); ++k)
        for (const auto& s : m_rows[rows[k]])
            if (column[s.unknown] >= 0) a(static_cast<Index>(k), column[s.unknown]) = s.slope;
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(a);
    const Eigen::MatrixXd q = qr.householderQ() * Eigen::MatrixXd::Identity(a.rows(), n);
    const auto r = qr.matrixQR().topRows(n).triangularView<Eigen::Upper>();
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const auto row = q.row(static_cast<Index>(k));
        // A row that nothing else repeats has leverage 1, whatever its weight.
        if (row.squaredNorm() < 1 - 1e-9) continue;
        const Eigen::VectorXd moves = r.solve(row.transpose());
        const double most = moves.lpNorm<Eigen::Infinity>();
        for (const std::size_t i : of)
            if (column[i] >= 0 && std::abs(moves(column[i])) > kStill * most)
                lost[rows[k]].push_back(i);
    }
    return lost;
}

std::vector<PartMembers> connectedParts(const Equations& eq, const RowMask& use) {
    std::vector<std::size_t> joined(eq.unknowns.size());
    std::iota(joined.begin(), joined.end(), std::size_t{0});
    std::vector<bool> touched(eq.unknowns.size(), false);
    for (std::size_t r = 0; r < eq.rows.size(); ++r) {
        if (!use[r]) continue;
        for (const std::size_t i : eq.rows[r].unknowns) {
            touched[i] = true;
            joined[leaderOf(joined, i)] = leaderOf(joined, eq.rows[r].unknowns.front());
        }
    }
    std::vector<std::size_t> order(eq.unknowns.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return eq.unknowns[a].key < eq.unknowns[b].key;
    });
    std::map<std::size_t, std::size_t> partOf;
    std::vector<PartMembers> parts;
    for (const std::size_t i : order) {
        if (!touched[i]) continue;
        const auto [it, fresh] = partOf.emplace(leaderOf(joined, i), parts.size());
        if (fresh) parts.emplace_back();
        parts[it->second].unknowns.push_back(i);
    }
    for (std::size_t r = 0; r < eq.rows.size(); ++r)
        if (use[r] && !eq.rows[r].unknowns.empty())
            parts[partOf.at(leaderOf(joined, eq.rows[r].unknowns.front()))].rows.push_back(r);
    return parts;
}

}  // namespace evidence::network

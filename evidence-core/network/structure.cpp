#include "evidence-core/network/structure.h"

#include "evidence-core/network/joined.h"
#include "evidence-core/network/null_space.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace evidence::network {

namespace {

using Index = Eigen::Index;

/// Relative slopes below this are nought.
constexpr double kNoSlope = 1e-12;

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

    // What is left hangs together in groups, each decided by its null space.
    Joined joined(m_unknowns);
    std::vector<std::size_t> undecided;
    for (std::size_t r = 0; r < m_rows.size(); ++r) {
        if (!use[r] || open[r] < 2) continue;
        undecided.push_back(r);
        std::optional<std::size_t> first;
        for (const auto& s : m_rows[r]) {
            if (out.estimable[s.unknown]) continue;
            if (first) joined.join(s.unknown, *first);
            first = s.unknown;
        }
    }
    std::map<std::size_t, OpenGroup> groups;
    for (std::size_t i = 0; i < m_unknowns; ++i)
        if (!out.estimable[i]) groups[joined.leader(i)].unknowns.push_back(i);
    std::vector<std::size_t> place(m_unknowns, 0);
    for (const auto& [leader, group] : groups)
        for (std::size_t k = 0; k < group.unknowns.size(); ++k) place[group.unknowns[k]] = k;
    for (const std::size_t r : undecided) {
        std::vector<Slope> row;
        for (const auto& s : m_rows[r])
            if (!out.estimable[s.unknown]) row.push_back({place[s.unknown], s.slope});
        const auto any = std::find_if(m_rows[r].begin(), m_rows[r].end(),
                                      [&](const Slope& s) { return !out.estimable[s.unknown]; });
        groups[joined.leader(any->unknown)].rows.push_back(std::move(row));
    }
    for (const auto& [leader, group] : groups) {
        const auto found = nullSpaceOf(group);
        for (std::size_t k = 0; k < group.unknowns.size(); ++k)
            out.estimable[group.unknowns[k]] = found.still[k];
        for (const std::size_t k : found.free) out.free.push_back(group.unknowns[k]);
    }
    std::sort(out.free.begin(), out.free.end());
    return out;
}

std::vector<PartMembers> connectedParts(const Equations& eq, const RowMask& use) {
    Joined joined(eq.unknowns.size());
    std::vector<bool> touched(eq.unknowns.size(), false);
    for (std::size_t r = 0; r < eq.rows.size(); ++r) {
        if (!use[r]) continue;
        for (const std::size_t i : eq.rows[r].unknowns) {
            touched[i] = true;
            joined.join(i, eq.rows[r].unknowns.front());
        }
    }
    std::vector<PartMembers> parts;
    std::map<std::size_t, std::size_t> partOf;
    for (std::size_t i = 0; i < eq.unknowns.size(); ++i) {
        if (!touched[i]) continue;
        const auto [it, fresh] = partOf.emplace(joined.leader(i), parts.size());
        if (fresh) parts.emplace_back();
        parts[it->second].unknowns.push_back(i);
    }
    for (std::size_t r = 0; r < eq.rows.size(); ++r)
        if (use[r] && !eq.rows[r].unknowns.empty())
            parts[partOf.at(joined.leader(eq.rows[r].unknowns.front()))].rows.push_back(r);
    return parts;
}

}  // namespace evidence::network

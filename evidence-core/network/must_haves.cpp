#include "evidence-core/network/joined.h"
#include "evidence-core/network/selected_inverse.h"
#include "evidence-core/network/structure.h"

#include <algorithm>
#include <cmath>
#include <map>

/// Rows that nothing else can stand in for.
namespace evidence::network {

namespace {

using Eigen::Index;

/// A row that nothing else repeats has leverage 1, whatever its weight.
constexpr double kAlone = 1 - 1e-9;
/// Share of the largest movement below which an unknown does not hang on a row.
constexpr double kStill = 1e-7;

using Rows = std::vector<std::vector<Slope>>;

struct Group {
    std::vector<std::size_t> unknowns;
    std::vector<std::size_t> rows;
};

/// By leverage: the diagonal of the projector on what the group's rows say.
void decide(const Group& group, const Rows& rows, std::vector<std::vector<std::size_t>>& out) {
    std::map<std::size_t, int> column;
    for (const std::size_t i : group.unknowns) column.emplace(i, static_cast<int>(column.size()));
    std::vector<Eigen::Triplet<double>> entries;
    for (std::size_t k = 0; k < group.rows.size(); ++k)
        for (const auto& s : rows[group.rows[k]])
            if (const auto at = column.find(s.unknown); at != column.end())
                entries.emplace_back(static_cast<int>(k), at->second, s.slope);
    SparseRows a(static_cast<Index>(group.rows.size()), static_cast<Index>(column.size()));
    a.setFromTriplets(entries.begin(), entries.end());
    const auto factor = factorise(a);
    if (!factor) return;
    const SelectedInverse inverse(*factor);
    const auto leverage = [&](const SparseVector& row) {
        double sum = 0;
        for (const auto& [i, left] : row)
            for (const auto& [j, right] : row) {
                const auto entry = inverse.at(i, j);
                if (!entry) return factor->product(row, row);
                sum += left * right * *entry;
            }
        return sum;
    };
    for (std::size_t k = 0; k < group.rows.size(); ++k) {
        const SparseVector row = entriesOf(a, static_cast<Index>(k));
        if (leverage(row) < kAlone) continue;
        Eigen::VectorXd form = Eigen::VectorXd::Zero(a.cols());
        for (const auto& [j, value] : row) form(j) = value;
        const Eigen::VectorXd moves = factor->solve(form);
        const double most = moves.lpNorm<Eigen::Infinity>();
        for (std::size_t j = 0; j < group.unknowns.size(); ++j)
            if (std::abs(moves(static_cast<Index>(j))) > kStill * most)
                out[group.unknowns[j]].push_back(group.rows[k]);
    }
}

}  // namespace

std::vector<std::vector<std::size_t>> Structure::mustHaves(
    const RowMask& use, const std::vector<std::size_t>& free) const {
    std::vector<bool> in(m_unknowns, true);
    for (const std::size_t i : free) in[i] = false;
    std::vector<bool> live = use;
    std::vector<int> speakers(m_unknowns, 0);
    for (std::size_t r = 0; r < m_rows.size(); ++r)
        if (live[r])
            for (const auto& s : m_rows[r]) ++speakers[s.unknown];

    // An unknown of one row alone hangs on that row and on all that the row takes in, and nothing
    // else hangs on it.
    std::vector<std::pair<std::size_t, std::size_t>> peeled;  // unknown, row
    std::vector<std::size_t> ready;
    for (std::size_t i = 0; i < m_unknowns; ++i)
        if (in[i] && speakers[i] == 1) ready.push_back(i);
    while (!ready.empty()) {
        const std::size_t i = ready.back();
        ready.pop_back();
        if (!in[i] || speakers[i] != 1) continue;
        const auto r = *std::find_if(m_rowsOf[i].begin(), m_rowsOf[i].end(),
                                     [&](std::size_t row) { return live[row]; });
        in[i] = false;
        live[r] = false;
        peeled.emplace_back(i, r);
        for (const auto& s : m_rows[r])
            if (--speakers[s.unknown] == 1 && in[s.unknown]) ready.push_back(s.unknown);
    }

    Joined joined(m_unknowns);
    std::vector<std::pair<std::size_t, std::size_t>> left;  // row, one of its unknowns
    for (std::size_t r = 0; r < m_rows.size(); ++r) {
        if (!live[r]) continue;
        std::optional<std::size_t> first;
        for (const auto& s : m_rows[r]) {
            if (!in[s.unknown]) continue;
            if (first) joined.join(s.unknown, *first);
            first = s.unknown;
        }
        if (first) left.emplace_back(r, *first);
    }
    std::map<std::size_t, Group> groups;
    for (std::size_t i = 0; i < m_unknowns; ++i)
        if (in[i] && speakers[i] > 0) groups[joined.leader(i)].unknowns.push_back(i);
    for (const auto& [r, i] : left) groups[joined.leader(i)].rows.push_back(r);
    std::vector<std::vector<std::size_t>> out(m_unknowns);
    for (const auto& [leader, group] : groups) decide(group, m_rows, out);

    for (auto it = peeled.rbegin(); it != peeled.rend(); ++it) {
        auto& own = out[it->first];
        own.push_back(it->second);
        for (const auto& s : m_rows[it->second])
            if (s.unknown != it->first)
                own.insert(own.end(), out[s.unknown].begin(), out[s.unknown].end());
        std::sort(own.begin(), own.end());
        own.erase(std::unique(own.begin(), own.end()), own.end());
    }
    return out;
}

}  // namespace evidence::network

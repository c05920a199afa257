#include "evidence-core/network/elimination.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace evidence::network {

namespace {

using Eigen::Index;

/// Of a row of unit length, what is left below this is rounding: the row follows from the others.
constexpr double kDependent = 1e-10;
/// A pivot is at least this share of its row's largest coefficient.
constexpr double kPivotShare = 0.1;

/// One exact row as it is worked on: coefficients by unknown, and by the rows it was made of.
struct Work {
    std::map<Index, double> unknowns;
    std::map<Index, double> made;  ///< by place in `independent`
    Index pivot = -1;
};

void subtract(std::map<Index, double>& from, const std::map<Index, double>& what, double times) {
    for (const auto& [i, value] : what) from[i] -= times * value;
}

void substitute(Work& row, Index pivot, const Work& by) {
    const auto it = row.unknowns.find(pivot);
    if (it == row.unknowns.end()) return;
    const double times = it->second;
    subtract(row.unknowns, by.unknowns, times);
    subtract(row.made, by.made, times);
    row.unknowns.erase(pivot);
}

Index pivotOf(const Work& row, const std::vector<int>& speakers) {
    double largest = 0;
    for (const auto& [i, value] : row.unknowns) largest = std::max(largest, std::abs(value));
    if (!(largest > kDependent)) return -1;
    Index best = -1;
    for (const auto& [i, value] : row.unknowns) {
        if (std::abs(value) < kPivotShare * largest) continue;
        if (best < 0 ||
            speakers[static_cast<std::size_t>(i)] < speakers[static_cast<std::size_t>(best)])
            best = i;
    }
    return best;
}

}  // namespace

Elimination eliminate(const SparseRows& c, const SparseRows& others) {
    const Index n = c.cols();
    std::vector<int> speakers(static_cast<std::size_t>(n), 0);
    for (Index p = 0; p < others.nonZeros(); ++p)
        ++speakers[static_cast<std::size_t>(others.innerIndexPtr()[p])];
    Elimination out;
    std::vector<Work> solved;
    std::vector<int> solvedFor(static_cast<std::size_t>(n), -1);
    for (Index i = 0; i < c.rows(); ++i) {
        Work row;
        for (SparseRows::InnerIterator it(c, i); it; ++it) row.unknowns[it.col()] += it.value();
        for (auto at = row.unknowns.begin(); at != row.unknowns.end();) {
            const int by = solvedFor[static_cast<std::size_t>(at->first)];
            if (by < 0) {
                ++at;
                continue;
            }
            // What comes in is never solved for earlier: begin anew behind nothing.
            substitute(row, at->first, solved[static_cast<std::size_t>(by)]);
            at = row.unknowns.begin();
        }
        row.pivot = pivotOf(row, speakers);
        if (row.pivot < 0) {
            out.dependent.push_back(i);
            SparseVector follows;
            for (const auto& [k, value] : row.made) follows.emplace_back(k, -value);
            out.follows.push_back(std::move(follows));
            continue;
        }
        const auto place = static_cast<Index>(solved.size());
        row.made[place] += 1;
        const double by = row.unknowns[row.pivot];
        for (auto& [k, value] : row.unknowns) value /= by;
        for (auto& [k, value] : row.made) value /= by;
        solvedFor[static_cast<std::size_t>(row.pivot)] = static_cast<int>(place);
        out.independent.push_back(i);
        solved.push_back(std::move(row));
    }
    // Later pivots still stand in earlier rows: from the last row back they are replaced.
    for (auto row = solved.rbegin(); row != solved.rend(); ++row)
        for (auto at = row->unknowns.begin(); at != row->unknowns.end();) {
            const int by = solvedFor[static_cast<std::size_t>(at->first)];
            if (at->first == row->pivot || by < 0) {
                ++at;
                continue;
            }
            substitute(*row, at->first, solved[static_cast<std::size_t>(by)]);
            at = row->unknowns.begin();
        }

    std::vector<int> column(static_cast<std::size_t>(n), -1);
    for (Index j = 0; j < n; ++j)
        if (solvedFor[static_cast<std::size_t>(j)] < 0) {
            column[static_cast<std::size_t>(j)] = static_cast<int>(out.free.size());
            out.free.push_back(j);
        }
    std::vector<Eigen::Triplet<double>> t, g;
    for (std::size_t z = 0; z < out.free.size(); ++z)
        t.emplace_back(static_cast<int>(out.free[z]), static_cast<int>(z), 1.0);
    for (const auto& row : solved) {
        const auto p = static_cast<int>(row.pivot);
        for (const auto& [i, value] : row.unknowns)
            if (i != row.pivot && value != 0)
                t.emplace_back(p, column[static_cast<std::size_t>(i)], -value);
        for (const auto& [k, value] : row.made)
            if (value != 0) g.emplace_back(p, static_cast<int>(k), value);
    }
    out.t.resize(n, static_cast<Index>(out.free.size()));
    out.t.setFromTriplets(t.begin(), t.end());
    out.g.resize(n, static_cast<Index>(solved.size()));
    out.g.setFromTriplets(g.begin(), g.end());
    return out;
}

}  // namespace evidence::network

#include "evidence-core/network/pulls.h"

#include <algorithm>
#include <cmath>

namespace evidence::network {

namespace {

/// A row that moves a size by less than this share of it does not move it.
constexpr double kStill = 1e-9;

void addLeavesOf(const Equations& eq, const Row& row, std::vector<std::size_t>& to) {
    to.push_back(row.leaf);
    to.insert(to.end(), row.moreLeaves.begin(), row.moreLeaves.end());
    for (const std::size_t i : row.folded) to.push_back(eq.unknowns[i].leaf);
}

void mergeByLeaf(std::vector<std::pair<std::size_t, double>>& variance) {
    std::stable_sort(variance.begin(), variance.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::size_t kept = 0;
    for (std::size_t i = 0; i < variance.size(); ++i) {
        if (kept > 0 && variance[kept - 1].first == variance[i].first)
            variance[kept - 1].second += variance[i].second;
        else
            variance[kept++] = variance[i];
    }
    variance.resize(kept);
}

}  // namespace

std::vector<std::size_t> leavesOf(const Equations& eq, const Row& row) {
    std::vector<std::size_t> out;
    addLeavesOf(eq, row, out);
    return out;
}

LeafPulls leafPullsOn(const Net& net, const Adjustment& part, Eigen::Index column, double value) {
    const Linearised& at = part.influence->at();
    Pulls pulls = part.influence->pullsOn(column);
    LeafPulls out;
    double sum = 0;
    const auto add = [&](std::size_t leaf, double u, ErrorShape shape) {
        if (!(u > 0)) return;
        out.variance.emplace_back(leaf, u * u);
        out.components.push_back({u, shape});
        sum += u * u;
    };
    const double size = std::max(std::abs(value), 1e-9);
    for (const auto& [k, signedPull] : pulls.rows) {
        const Row& row = net.eq.rows[part.rows[k]];
        const double pull = std::abs(signedPull);
        add(row.leaf, pull * row.ownU, row.ownShape);
        for (const auto& s : at.at[k].slopes) {
            if (!net.eq.isFolded[s.unknown]) continue;
            const auto& error = net.eq.unknowns[s.unknown];
            add(error.leaf, pull * std::abs(s.slope) * error.u, error.shape);
        }
        const double most =
            std::max({std::abs(at.at[k].value), at.sigma(static_cast<Eigen::Index>(k)), 1e-9});
        if (pull * most > kStill * size) addLeavesOf(net.eq, row, out.leaves);
    }
    mergeByLeaf(out.variance);
    std::sort(out.leaves.begin(), out.leaves.end());
    out.leaves.erase(std::unique(out.leaves.begin(), out.leaves.end()), out.leaves.end());
    out.total = sum / (1 - std::min(pulls.unfollowed, 0.999999));
    if (out.total > sum) out.components.push_back({std::sqrt(out.total - sum), ErrorShape::Normal});
    out.rows = std::move(pulls.rows);
    return out;
}

BorrowedVariance borrowedVariance(const Net& net, const Adjustment& part) {
    if (!part.influence || part.influence->followsEveryRow()) return {};
    const Linearised& at = part.influence->at();
    const auto n = static_cast<Eigen::Index>(part.rows.size());
    Eigen::VectorXd guessed = Eigen::VectorXd::Zero(n), borrowed = Eigen::VectorXd::Zero(n);
    for (std::size_t k = 0; k < part.rows.size(); ++k) {
        const Row& row = net.eq.rows[part.rows[k]];
        const auto place = static_cast<Eigen::Index>(k);
        const double whole = at.sigma(place) * at.sigma(place);
        const auto add = [&](std::size_t leaf, double u) {
            const auto& strength = net.eq.leaves[leaf].strength;
            if (!(whole > 0)) return;
            if (strength == record::Grade::OurCall) guessed(place) += u * u / whole;
            if (strength == record::Grade::OurCall || strength == record::Grade::CarriedOver)
                borrowed(place) += u * u / whole;
        };
        add(row.leaf, row.ownU);
        for (const auto& s : at.at[k].slopes)
            if (net.eq.isFolded[s.unknown])
                add(net.eq.unknowns[s.unknown].leaf, s.slope * net.eq.unknowns[s.unknown].u);
    }
    BorrowedVariance out;
    if (borrowed.maxCoeff() > 0) out.borrowed = part.influence->varianceFrom(borrowed);
    if (guessed.maxCoeff() > 0)
        out.guessed = guessed == borrowed ? out.borrowed : part.influence->varianceFrom(guessed);
    return out;
}

}  // namespace evidence::network

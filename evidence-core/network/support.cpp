#include "evidence-core/network/net.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

/// What each size stands on: ceilings, must-have leaves, origins, steps.
namespace evidence::network {

namespace {

using record::Grade;

constexpr std::array kClasses{Grade::InHand,  Grade::Figured,     Grade::TakenOff,
                              Grade::BoxedIn, Grade::CarriedOver, Grade::OurCall};

/// Settings and defaults that are never taken away are no leaves to be named, nor are the pixels of
/// a mark: the readings and references that it serves are.
bool isNamed(const Leaf& leaf) {
    return leaf.kind != LeafKind::Workmanship && leaf.kind != LeafKind::Placing &&
           leaf.kind != LeafKind::Mark;
}

std::vector<std::size_t> leavesOf(const Net& net, const Row& row) {
    std::vector<std::size_t> out{row.leaf};
    out.insert(out.end(), row.moreLeaves.begin(), row.moreLeaves.end());
    for (const std::size_t i : row.folded) out.push_back(net.eq.unknowns[i].leaf);
    return out;
}

/// Best class for each unknown: the first of the six tests it passes.
std::vector<std::optional<Grade>> ceilings(const Net& net) {
    std::vector<std::optional<Grade>> out(net.eq.unknowns.size());
    std::optional<Structure::Estimability> found;
    for (const Grade g : kClasses) {
        bool changed = !found;
        RowMask use = net.evidence;
        for (std::size_t r = 0; r < use.size(); ++r) {
            const auto& strength = net.eq.rows[r].strength;
            if (use[r] && strength == g) changed = true;
            if (strength && *strength > g) use[r] = false;
        }
        // A class without leaves passes what the better ones pass.
        if (changed) found = net.structure.estimability(use);
        for (std::size_t i = 0; i < out.size(); ++i)
            if (!out[i] && found->estimable[i]) out[i] = g;
    }
    return out;
}

/// Fewest steps from mark or text to each unknown: each row adds its own to the longest of what it
/// takes in.
std::vector<int> stepsTo(const Net& net) {
    constexpr int kFar = 1 << 20;
    std::vector<int> steps(net.eq.unknowns.size(), kFar);
    for (std::size_t i = 0; i < steps.size(); ++i)
        if (net.eq.unknowns[i].kind == UnknownKind::Error) steps[i] = 0;
    for (bool moved = true; moved;) {
        moved = false;
        for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
            const Row& row = net.eq.rows[r];
            if (!net.fit.acting[r] || row.kind == RowKind::Prior) continue;
            for (const std::size_t to : row.unknowns) {
                if (net.eq.unknowns[to].kind == UnknownKind::Error) continue;
                int longest = 0;
                for (const std::size_t from : row.unknowns)
                    if (from != to) longest = std::max(longest, steps[from]);
                if (longest + row.steps < steps[to]) {
                    steps[to] = longest + row.steps;
                    moved = true;
                }
            }
        }
    }
    for (int& s : steps)
        if (s >= kFar) s = 0;
    return steps;
}

/// Leaves that pull a dimension.
std::set<std::size_t> pulling(const Net& net, std::size_t unknown) {
    std::set<std::size_t> out;
    if (!net.fit.has(unknown)) return out;
    const Adjustment& part = net.fit.parts[*net.fit.partOf[unknown]];
    const auto column = *net.fit.columnOf[unknown];
    const double size = std::max(std::abs(net.fit.x(static_cast<Eigen::Index>(unknown))), 1e-9);
    for (std::size_t k = 0; k < part.rows.size(); ++k) {
        const Row& row = net.eq.rows[part.rows[k]];
        const double moved =
            std::abs(part.pull(column, static_cast<Eigen::Index>(k))) *
            std::max({std::abs(part.at[k].value), part.sigma(static_cast<Eigen::Index>(k)), 1e-9});
        if (moved <= 1e-9 * size) continue;
        for (const std::size_t leaf : leavesOf(net, row)) out.insert(leaf);
    }
    return out;
}

/// Estimability without all leaves of one origin, found once for each.
class WithoutOrigin {
  public:
    explicit WithoutOrigin(const Net& net) : m_net(net) {}

    const std::vector<bool>& estimable(const record::SourceId& origin) {
        const auto it = m_found.find(origin);
        if (it != m_found.end()) return it->second;
        RowMask use = m_net.evidence;
        for (std::size_t r = 0; r < use.size(); ++r)
            for (const std::size_t leaf : leavesOf(m_net, m_net.eq.rows[r]))
                if (isNamed(m_net.eq.leaves[leaf]) && m_net.eq.leaves[leaf].origin == origin)
                    use[r] = false;
        return m_found.emplace(origin, m_net.structure.estimability(use).estimable).first->second;
    }

  private:
    const Net& m_net;
    std::map<record::SourceId, std::vector<bool>> m_found;
};

}  // namespace

void writeSupport(const Net& net, Solution& to) {
    const auto ceiling = ceilings(net);
    const auto steps = stepsTo(net);
    WithoutOrigin without(net);
    for (std::size_t d = 0; d < to.dimensions.size(); ++d) {
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown) continue;
        auto& out = to.dimensions[d];
        if (out.estimable) out.ceiling = ceiling[*unknown];
        out.restsOnGuess = out.estimable && ceiling[*unknown] == Grade::OurCall;
        out.steps = out.estimable ? steps[*unknown] : 0;
        std::map<record::SourceId, double> shareOf;
        for (const std::size_t leaf : pulling(net, *unknown))
            if (isNamed(net.eq.leaves[leaf]) && net.eq.leaves[leaf].origin)
                shareOf.emplace(*net.eq.leaves[leaf].origin, 0);
        for (const auto& c : out.contributions)
            if (const auto& origin = net.eq.leaves[c.leaf].origin;
                origin && shareOf.contains(*origin))
                shareOf[*origin] += c.share;
        double most = -1;
        for (const auto& [origin, share] : shareOf) {
            out.origins.push_back(origin);
            if (share > most && !without.estimable(origin)[*unknown]) {
                most = share;
                out.singleOrigin = origin;
            }
        }
    }

    // Each connected part at once: which rows are the only ones to say what they say.
    RowMask use = net.evidence;
    for (const auto& part : connectedParts(net.eq, use)) {
        const auto lost = net.structure.lostWithout(use, part.unknowns, net.all.free);
        for (const std::size_t r : part.rows)
            for (const std::size_t unknown : lost[r]) {
                if (net.eq.unknowns[unknown].kind != UnknownKind::Dimension ||
                    !net.all.estimable[unknown])
                    continue;
                auto& mustHave = to.dimensions[net.eq.unknowns[unknown].record].mustHave;
                for (const std::size_t leaf : leavesOf(net, net.eq.rows[r]))
                    if (isNamed(net.eq.leaves[leaf])) mustHave.push_back(leaf);
            }
    }
    for (auto& d : to.dimensions) {
        std::sort(d.mustHave.begin(), d.mustHave.end());
        d.mustHave.erase(std::unique(d.mustHave.begin(), d.mustHave.end()), d.mustHave.end());
    }
}

}  // namespace evidence::network

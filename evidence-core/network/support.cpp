#include "evidence-core/network/net.h"
#include "evidence-core/network/pulls.h"

#include <algorithm>
#include <array>
#include <deque>
#include <iterator>
#include <set>

/// What each size stands on: ceilings, must-have leaves, origins, steps.
namespace evidence::network {

namespace {

using record::Grade;

constexpr std::array kClasses{Grade::InHand,  Grade::Figured,     Grade::TakenOff,
                              Grade::BoxedIn, Grade::CarriedOver, Grade::OurCall};

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
    std::deque<std::size_t> rows;
    std::vector<bool> waiting(net.eq.rows.size(), false);
    const auto wait = [&](std::size_t r) {
        if (!net.fit.acting[r] || net.eq.rows[r].kind == RowKind::Prior || waiting[r]) return;
        waiting[r] = true;
        rows.push_back(r);
    };
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r) wait(r);
    while (!rows.empty()) {
        const std::size_t r = rows.front();
        rows.pop_front();
        waiting[r] = false;
        const Row& row = net.eq.rows[r];
        for (const std::size_t to : row.unknowns) {
            if (net.eq.unknowns[to].kind == UnknownKind::Error) continue;
            int longest = 0;
            for (const std::size_t from : row.unknowns)
                if (from != to) longest = std::max(longest, steps[from]);
            if (longest + row.steps >= steps[to]) continue;
            steps[to] = longest + row.steps;
            for (const std::size_t other : net.structure.rowsOf(to)) wait(other);
        }
    }
    for (int& s : steps)
        if (s >= kFar) s = 0;
    return steps;
}

std::vector<std::string> originsOf(const Net& net, std::size_t r) {
    std::vector<std::string> out;
    for (const std::size_t leaf : leavesOf(net.eq, net.eq.rows[r]))
        if (isNamed(net.eq.leaves[leaf]) && net.eq.leaves[leaf].origin)
            out.push_back(net.eq.leaves[leaf].origin->text);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

/// Which origins hold each unknown alone.
class OriginsThatHold {
  public:
    explicit OriginsThatHold(const Net& net) : m_net(net), m_alone(suspects()) {
        for (std::size_t r = 0; r < net.evidence.size(); ++r)
            if (net.evidence[r])
                for (auto& origin : originsOf(net, r)) m_rowsOf[std::move(origin)].push_back(r);
    }

    /// Whether the unknown cannot be worked out without that origin.
    bool alone(const record::SourceId& origin, std::size_t unknown) {
        const auto& suspects = m_alone[unknown];
        if (suspects && !std::binary_search(suspects->begin(), suspects->end(), origin.text))
            return false;
        return !estimableWithout(origin)[unknown];
    }

  private:
    using Suspects = std::optional<std::vector<std::string>>;

    const std::vector<bool>& estimableWithout(const record::SourceId& origin) {
        const auto it = m_found.find(origin);
        if (it != m_found.end()) return it->second;
        RowMask use = m_net.evidence;
        if (const auto rows = m_rowsOf.find(origin.text); rows != m_rowsOf.end())
            for (const std::size_t r : rows->second) use[r] = false;
        return m_found.emplace(origin, m_net.structure.estimability(use).estimable).first->second;
    }

    /// Those in every way found to reach an unknown from what was reached before; absent where
    /// none was found. An origin that is not among them does not hold it alone, which spares most
    /// tests.
    [[nodiscard]] std::vector<Suspects> suspects() const {
        const auto& structure = m_net.structure;
        std::vector<Suspects> out(m_net.eq.unknowns.size());
        std::vector<int> open(structure.rows().size(), 0);
        // Errors and scales first: a size is then reached by all that speaks of it, not by the
        // first.
        std::set<std::pair<int, std::size_t>> ready;
        const auto wait = [&](std::size_t r) {
            const RowKind kind = m_net.eq.rows[r].kind;
            const bool scale = kind == RowKind::Print || kind == RowKind::Reference;
            ready.emplace(kind == RowKind::Prior ? 0 : scale ? 1 : 2, r);
        };
        for (std::size_t r = 0; r < open.size(); ++r) {
            if (!m_net.evidence[r]) continue;
            open[r] = static_cast<int>(structure.rows()[r].size());
            if (open[r] == 1) wait(r);
        }
        while (!ready.empty()) {
            const std::size_t first = ready.begin()->second;
            ready.erase(ready.begin());
            if (open[first] != 1) continue;
            const auto& row = structure.rows()[first];
            const std::size_t unknown = std::find_if(row.begin(), row.end(), [&](const Slope& s) {
                                            return !out[s.unknown];
                                        })->unknown;
            Suspects common;
            for (const std::size_t r : structure.rowsOf(unknown)) {
                if (!m_net.evidence[r] || open[r] != 1) continue;
                auto way = waysIn(r, unknown, out);
                if (common) {
                    std::vector<std::string> both;
                    std::set_intersection(common->begin(), common->end(), way.begin(), way.end(),
                                          std::back_inserter(both));
                    way = std::move(both);
                }
                common = std::move(way);
            }
            out[unknown] = std::move(common);
            for (const std::size_t r : structure.rowsOf(unknown))
                if (m_net.evidence[r] && --open[r] == 1) wait(r);
        }
        return out;
    }

    /// All origins that reach an unknown by one row: its own and those of what it takes in.
    [[nodiscard]] std::vector<std::string> waysIn(std::size_t row, std::size_t to,
                                                  const std::vector<Suspects>& so) const {
        auto way = originsOf(m_net, row);
        for (const auto& s : m_net.structure.rows()[row])
            if (s.unknown != to)
                way.insert(way.end(), so[s.unknown]->begin(), so[s.unknown]->end());
        std::sort(way.begin(), way.end());
        way.erase(std::unique(way.begin(), way.end()), way.end());
        return way;
    }

    const Net& m_net;
    std::vector<Suspects> m_alone;  ///< by unknown
    std::map<std::string, std::vector<std::size_t>> m_rowsOf;
    std::map<record::SourceId, std::vector<bool>> m_found;
};

}  // namespace

void writeSupport(const Net& net, Solution& to) {
    const auto ceiling = ceilings(net);
    const auto steps = stepsTo(net);
    OriginsThatHold hold(net);
    for (std::size_t d = 0; d < to.dimensions.size(); ++d) {
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown) continue;
        auto& out = to.dimensions[d];
        if (out.estimable) out.ceiling = ceiling[*unknown];
        out.restsOnGuess = out.estimable && ceiling[*unknown] == Grade::OurCall;
        out.steps = out.estimable ? steps[*unknown] : 0;
        std::map<record::SourceId, double> shareOf;
        for (const auto& c : out.contributions)
            if (const auto& origin = net.eq.leaves[c.leaf].origin) shareOf[*origin] += c.share;
        double most = -1;
        for (const auto& origin : out.origins) {
            const auto found = shareOf.find(origin);
            const double share = found != shareOf.end() ? found->second : 0.0;
            if (share > most && hold.alone(origin, *unknown)) {
                most = share;
                out.singleOrigin = origin;
            }
        }
    }

    const auto mustHaves = net.structure.mustHaves(net.evidence, net.all.free);
    for (std::size_t d = 0; d < to.dimensions.size(); ++d) {
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown || !net.all.estimable[*unknown]) continue;
        auto& mustHave = to.dimensions[d].mustHave;
        for (const std::size_t r : mustHaves[*unknown])
            for (const std::size_t leaf : leavesOf(net.eq, net.eq.rows[r]))
                if (isNamed(net.eq.leaves[leaf])) mustHave.push_back(leaf);
        std::sort(mustHave.begin(), mustHave.end());
        mustHave.erase(std::unique(mustHave.begin(), mustHave.end()), mustHave.end());
    }
}

}  // namespace evidence::network

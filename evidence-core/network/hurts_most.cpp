#include "evidence-core/network/matters.h"

#include <algorithm>
#include <cmath>

/// Which single reading, if wrong by as much as would not be noticed, would hurt most: external
/// reliability (W. Baarda, A Testing Procedure for Use in Geodetic Networks, 1968), weighed by the
/// wanted tolerances.
namespace evidence::network {

namespace {

/// Dimensions of one part that are looked at, and answers given.
constexpr std::size_t kMostMatters = 300;
constexpr std::size_t kMostAnswers = 20;

struct Harm {
    double sum = 0;  ///< Σ (movement / tolerance)²
    double most = 0;
    std::size_t dimension = 0;
    double moves = 0;
};

}  // namespace

std::vector<Hurt> hurtsMost(const Net& net, const Solution& s) {
    std::vector<Hurt> out;
    for (const auto& [p, wanted] : mattersByPart(net, s)) {
        const auto first = *net.eq.ofDimension[s.parts[p].dimensions.front()];
        const Adjustment& part = net.fit.parts[*net.fit.partOf[first]];
        std::map<std::size_t, Harm> harmBy;  // row of the part
        for (std::size_t i = 0; i < wanted.size() && i < kMostMatters; ++i) {
            const auto& m = wanted[i];
            const auto column = *net.fit.columnOf[*net.eq.ofDimension[m.dimension]];
            for (const auto& [k, pull] : part.influence->pullsOn(column).rows) {
                const RowKind kind = net.eq.rows[part.rows[k]].kind;
                if (kind != RowKind::Direct && kind != RowKind::Scaled) continue;
                const double share = std::abs(pull) / m.tolerance;
                Harm& harm = harmBy[k];
                harm.sum += share * share;
                if (share <= harm.most) continue;
                harm.most = share;
                harm.dimension = m.dimension;
                harm.moves = std::abs(pull);
            }
        }
        for (const auto& [k, harm] : harmBy) {
            const Row& row = net.eq.rows[part.rows[k]];
            const auto reliability = reliabilityOf(net, {&part, k});
            const Prediction& at = part.influence->at().at[k];
            // What nothing checks can be wrong by anything; it is weighed by what would be
            // noticed if one equal reading stood beside it.
            const double unseen = reliability.mde.value_or(kDelta0 * ownU(net, row, at));
            const double observed = unseen * std::abs(at.perUnit);
            Hurt hurt;
            hurt.reading = row.record;
            hurt.checked = reliability.mde.has_value();
            hurt.unseen = unseen;
            hurt.dimension = harm.dimension;
            hurt.moves = harm.moves * observed;
            hurt.harm = harm.sum * observed * observed;
            out.push_back(hurt);
        }
    }
    std::sort(out.begin(), out.end(), [&](const Hurt& a, const Hurt& b) {
        if (a.harm != b.harm) return a.harm > b.harm;
        return net.triage.readings[a.reading].key < net.triage.readings[b.reading].key;
    });
    if (out.size() > kMostAnswers) out.resize(kMostAnswers);
    return out;
}

}  // namespace evidence::network

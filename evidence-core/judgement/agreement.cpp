#include "evidence-core/judgement/agreement.h"

#include "evidence-core/statistics/consensus.h"
#include "evidence-core/statistics/effective_degrees.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace evidence::judgement {
namespace {

/// The reading's own doubt with that of its scale.
double wholeU(const Context& c, const network::ReadingSolution& reading) {
    const auto& entered = *c.index.reading(reading.id.text);
    double scale = 0;
    if (entered.frame)
        if (const auto at = c.frameAt.find(entered.frame->text); at != c.frameAt.end())
            scale = std::abs(*reading.value) * c.solution.frames[at->second].uRelative.value_or(0);
    return std::hypot(*reading.u, scale);
}

/// Best reading of each origin, in the shown unit; a reading without a source stands for itself.
std::vector<statistics::Estimate> bestByOrigin(const Context& c, std::size_t dimension) {
    std::map<std::pair<int, std::string>, statistics::Estimate> best;
    const auto& unit = c.units[dimension];
    for (const auto at : c.solution.dimensions[dimension].readings) {
        const auto& reading = c.solution.readings[at];
        if (reading.use != network::ReadingUse::Used || !reading.value || !reading.u) continue;
        const double u = wholeU(c, reading);
        if (!(u > 0)) continue;
        const auto* source = c.index.sourceOf(*c.index.reading(reading.id.text));
        const auto key = source ? std::pair(c.lineage.originOf(*source), std::string{})
                                : std::pair(-1, c.digests.ofRecord(reading.id.text));
        const statistics::Estimate estimate{unit.shown(*reading.value), unit.shown(u)};
        const auto [place, added] = best.emplace(key, estimate);
        if (!added && estimate.u < place->second.u) place->second = estimate;
    }
    std::vector<statistics::Estimate> list;
    list.reserve(best.size());
    for (const auto& [key, estimate] : best) list.push_back(estimate);
    // By content, so that sums do not depend on the order of the sources.
    std::ranges::sort(list, {}, [](const auto& e) { return std::pair(e.value, e.u); });
    return list;
}

}  // namespace

std::optional<Agreement> agreementOf(const Context& c, std::size_t dimension) {
    const auto values = bestByOrigin(c, dimension);
    if (values.size() < 2) return std::nullopt;
    const auto mean = statistics::weightedMean(values);
    const auto spread = statistics::randomEffects(values, statistics::BetweenRule::MandelPaule);
    std::vector<double> bare;
    bare.reserve(values.size());
    for (const auto& each : values) bare.push_back(each.value);
    return Agreement{static_cast<int>(values.size()),
                     *mean.birge,
                     mean.q,
                     *mean.p,
                     mean.uInternal,
                     mean.uExternal,
                     spread.between,
                     statistics::median(bare)};
}

std::optional<RepeatsJudged> repeatsOf(const Context& c, std::size_t dimension) {
    const auto& d = c.solution.dimensions[dimension];
    std::vector<statistics::Contribution> contributions;
    bool any = false;
    for (const auto& part : d.contributions) {
        statistics::Contribution made{c.units[dimension].shown(part.u)};
        const auto* entered = c.index.reading(c.solution.leaves[part.leaf].id);
        // From four repeats on the doubt was widened for their number: t is given the bare one.
        if (entered && entered->dof && *entered->dof >= 3) {
            made.degrees = *entered->dof;
            made.u *= std::sqrt((made.degrees - 2) / made.degrees);
            any = true;
        }
        contributions.push_back(made);
    }
    if (!any) return std::nullopt;
    const auto half = statistics::expandedUncertainty(contributions, 0.95);
    const double degrees = statistics::effectiveDegrees(contributions);
    if (!half || !std::isfinite(degrees)) return std::nullopt;
    return RepeatsJudged{degrees, *half};
}

}  // namespace evidence::judgement

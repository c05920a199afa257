#include "evidence-core/judgement/finding/current_ruling.h"
#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::judgement {

namespace {

bool hasDeparture(const Context& c, const record::AnyId& on) {
    return std::ranges::any_of(c.index.reg().departures,
                               [&](const record::Departure& d) { return d.on == on; });
}

void addStale(const Context& c, const record::Ruling& ruling, const std::string& digest,
              std::vector<Finding>& findings) {
    if (!ruling.evidence || !ruling.evidence->digest || *ruling.evidence->digest == digest) return;
    std::string text =
        fmt::format("The evidence of {} has changed since it was ruled {}",
                    nameOfTarget(c.index, ruling.on), asWritten(ruling.value, ruling.unit));
    std::vector<std::pair<std::string, double>> numbers;
    const auto at = c.dimensionAt.find(ruling.on.text);
    if (at != c.dimensionAt.end()) {
        const auto& unit = c.units[at->second];
        const auto& d = c.solution.dimensions[at->second];
        if (ruling.evidence->value) {
            text +=
                fmt::format(": it then stood at {}",
                            sizeText(*ruling.evidence->value,
                                     ruling.evidence->u ? std::optional(1.96 * *ruling.evidence->u)
                                                        : std::nullopt,
                                     unit.name));
            text += fmt::format(" and now stands at {}", c.sizeOf(at->second));
            numbers.emplace_back("value_then", *ruling.evidence->value);
        }
        if (d.value) numbers.emplace_back("value_now", unit.shown(*d.value));
    }
    findings.push_back(made("ruling-stale", {ruling.on, record::any(ruling.id)}, text + ".",
                            "Look at what came in since, and rule again, for the same value or "
                            "another.",
                            std::move(numbers)));
}

void addOutside(const Context& c, const record::Ruling& ruling, std::vector<Finding>& findings) {
    const auto at = c.dimensionAt.find(ruling.on.text);
    if (at == c.dimensionAt.end() || hasDeparture(c, ruling.on)) return;
    const auto& d = c.solution.dimensions[at->second];
    const auto& unit = c.units[at->second];
    const auto ruled = shownValue(ruling.value, ruling.unit, unit);
    if (!ruled || !d.interval95) return;
    const double low = unit.shown(d.interval95->low);
    const double high = unit.shown(d.interval95->high);
    // A hair of the value's own size is rounding, no difference.
    const double hair = 1e-9 * std::max(std::abs(low), std::abs(high));
    if (*ruled >= low - hair && *ruled <= high + hair) return;
    findings.push_back(
        made("ruling-outside", {ruling.on, record::any(ruling.id)},
             fmt::format("{} was ruled {}, which lies outside what the evidence bears: {}. No "
                         "departure says why.",
                         nameOfTarget(c.index, ruling.on), asWritten(ruling.value, ruling.unit),
                         c.sizeOf(at->second)),
             "Rule again within the evidence, or record why the build leaves the original here.",
             {{"ruled", *ruled}, {"low95", low}, {"high95", high}}));
}

}  // namespace

const record::Ruling* currentRuling(const Index& index, const record::AnyId& on) {
    const record::Ruling* current = nullptr;
    for (const auto& ruling : index.reg().rulings) {
        if (!(ruling.on == on)) continue;
        const bool superseded = std::ranges::any_of(
            index.reg().rulings,
            [&](const record::Ruling& later) { return later.supersedes == ruling.id; });
        if (superseded) continue;
        if (!current || ruling.at > current->at) current = &ruling;
    }
    return current;
}

void findRulingFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto on = record::any(c.solution.dimensions[i].id);
        if (const auto* ruling = currentRuling(c.index, on)) {
            addStale(c, *ruling, c.evidence[i], findings);
            addOutside(c, *ruling, findings);
        }
    }
    for (const auto& fact : judged.facts)
        if (const auto* ruling = currentRuling(c.index, record::any(fact.result.id)))
            addStale(c, *ruling, fact.result.digest, findings);
}

}  // namespace evidence::judgement

#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/member_words.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::judgement {

namespace {

std::vector<std::string> namesOf(const Context& c, const std::vector<record::ReadingId>& ids) {
    std::vector<std::string> names;
    for (const auto& id : ids) names.push_back(nameOfLeaf(c.index, id.text));
    std::ranges::sort(names);
    return names;
}

Finding ofDimension(const Context& c, std::size_t i) {
    const auto& d = c.solution.dimensions[i];
    const auto& unit = c.units[i];
    std::vector<record::AnyId> on{record::any(d.id)};
    std::vector<record::ReadingId> from = d.limits.lowFrom;
    for (const auto& id : d.limits.highFrom)
        if (std::ranges::find(from, id) == from.end()) from.push_back(id);
    std::ranges::sort(from, {}, [&](const auto& id) { return c.digests.ofRecord(id.text); });
    for (const auto& id : from) on.push_back(record::any(id));
    std::vector<std::pair<std::string, double>> numbers;
    if (d.value) numbers.emplace_back("value", unit.shown(*d.value));
    if (d.limits.low) numbers.emplace_back("low", unit.shown(*d.limits.low));
    if (d.limits.high) numbers.emplace_back("high", unit.shown(*d.limits.high));
    const std::string name = nameOf(c.record(d));
    if (d.limits.empty)
        return made(
            "limits-exclude", std::move(on),
            fmt::format("{}: its limits exclude each other: {}.", name, listText(namesOf(c, from))),
            "One of the limits is wrong, or speaks of another state: look at each again.",
            std::move(numbers));
    const bool tooSmall = d.value && d.limits.low && *d.value < *d.limits.low;
    return made("limits-exclude", std::move(on),
                fmt::format("{}: all evidence together gives {}, which is {} than {} allows.", name,
                            c.sizeOf(i), tooSmall ? "less" : "more",
                            listText(namesOf(c, tooSmall ? d.limits.lowFrom : d.limits.highFrom))),
                "Either the limit or the size is wrong: check that both speak of the same feature "
                "in the same state.",
                std::move(numbers));
}

}  // namespace

void findExcludingLimits(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i)
        if (!c.solution.dimensions[i].setAside && c.solution.dimensions[i].limits.excludes)
            findings.push_back(ofDimension(c, i));
    for (const auto& relation : c.solution.relations) {
        if (!relation.inequality || relation.holds) continue;
        auto on = dimensionsOf(c, relation);
        on.insert(on.begin(), record::any(relation.id));
        std::vector<std::pair<std::string, double>> numbers;
        std::string by;
        if (relation.misclosure) {
            numbers.emplace_back("misclosure", *relation.misclosure);
            const double factor =
                relation.dimensions.empty() ? 1.0 : c.units[relation.dimensions.front()].factor;
            by = fmt::format(" by {}", amountText(std::abs(*relation.misclosure) / factor,
                                                  relation.dimensions.empty()
                                                      ? "1"
                                                      : c.units[relation.dimensions.front()].name));
        }
        if (relation.w) numbers.emplace_back("w", *relation.w);
        findings.push_back(made(
            "limits-exclude", std::move(on),
            sentence(fmt::format("{} fails{}.",
                                 nameOf(c.index, *c.index.relation(relation.id.text)), by)),
            "Either the limit does not hold, or one of its sizes is wrong.", std::move(numbers)));
    }
}

}  // namespace evidence::judgement

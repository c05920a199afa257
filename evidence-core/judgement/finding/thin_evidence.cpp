#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

namespace {

/// The one used reading of a dimension that nothing else checks, or none.
std::optional<std::size_t> onlyReading(const Context& c, const network::DimensionSolution& d) {
    std::optional<std::size_t> only;
    for (const auto at : d.readings) {
        if (c.solution.readings[at].use != network::ReadingUse::Used) continue;
        if (only) return std::nullopt;
        only = at;
    }
    if (!only) return std::nullopt;
    const auto& reliability = c.solution.readings[*only].reliability;
    return reliability && reliability->w ? std::nullopt : only;
}

std::string originText(const network::DimensionSolution& d, const std::string& name,
                       const std::string& origin) {
    if (d.origins.size() > 1)
        return fmt::format(
            "{} stands or falls with one origin, {}: without it nothing fixes the "
            "size.",
            name, origin);
    return fmt::format("All that is known of {} goes back to one origin, {}.", name, origin);
}

}  // namespace

void findThinEvidence(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        if (d.setAside || !d.estimable) continue;
        const std::string name = nameOf(c.record(d));
        if (const auto only = onlyReading(c, d)) {
            const auto& id = c.solution.readings[*only].id;
            findings.push_back(
                made("single-reading", {record::any(d.id), record::any(id)},
                     fmt::format("{} has one reading, {}, and nothing that would show a mistake "
                                 "in it.",
                                 name, nameOf(c.index, *c.index.reading(id.text))),
                     "A second reading from another source, or a relation that checks it."));
        }
        if (d.singleOrigin) {
            const auto* source = c.index.source(d.singleOrigin->text);
            findings.push_back(
                made("single-origin", {record::any(d.id), record::any(*d.singleOrigin)},
                     originText(d, name, source ? nameOf(*source) : "a source"),
                     "A source that does not descend from it. Copies and redrawings do not count.",
                     {{"origins", static_cast<double>(d.origins.size())}}));
        }
        if (d.steps > c.thresholds.longChainSteps)
            findings.push_back(
                made("long-chain", {record::any(d.id)},
                     fmt::format("{} is {} steps away from the nearest mark or text; each step is "
                                 "a place for a mistake.",
                                 name, d.steps),
                     "A more direct reading of it.", {{"steps", d.steps}}));
    }
}

}  // namespace evidence::judgement

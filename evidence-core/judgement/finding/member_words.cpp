#include "evidence-core/judgement/finding/member_words.h"

#include "evidence-core/judgement/wording.h"

#include <algorithm>

namespace evidence::judgement {

About aboutMembers(const Context& c, const network::Conflict& conflict) {
    About about;
    std::vector<std::size_t> dimensions;
    const auto add = [&](std::size_t dimension) {
        if (std::ranges::find(dimensions, dimension) == dimensions.end())
            dimensions.push_back(dimension);
    };
    for (const auto& member : conflict.members)
        if (const auto reading = c.readingAt.find(member.id); reading != c.readingAt.end())
            add(c.solution.readings[reading->second].dimension);
    std::vector<std::string> names;
    for (const auto at : dimensions) {
        about.dimensions.push_back(record::any(c.solution.dimensions[at].id));
        names.push_back(nameOf(c.record(c.solution.dimensions[at])));
    }
    about.on = about.dimensions;
    for (const auto& member : conflict.members) about.on.push_back({member.id});
    if (!names.empty()) about.subject = listText(names, 3);

    const auto& first = conflict.members.front();
    std::optional<std::size_t> shown;
    if (const auto reading = c.readingAt.find(first.id); reading != c.readingAt.end())
        shown = c.solution.readings[reading->second].dimension;
    else if (const auto relation = c.relationAt.find(first.id);
             relation != c.relationAt.end() &&
             !c.solution.relations[relation->second].dimensions.empty())
        shown = c.solution.relations[relation->second].dimensions.front();
    if (shown) {
        about.factor = c.units[*shown].factor;
        about.unit = c.units[*shown].name;
    }
    return about;
}

std::vector<record::AnyId> dimensionsOf(const Context& c,
                                        const network::RelationSolution& relation) {
    std::vector<record::AnyId> ids;
    for (const auto at : relation.dimensions)
        ids.push_back(record::any(c.solution.dimensions[at].id));
    return ids;
}

}  // namespace evidence::judgement

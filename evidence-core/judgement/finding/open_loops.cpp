#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/member_words.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::judgement {

namespace {

/// What a conflict says of a relation that pulls; null where no conflict names it.
const network::ConflictMember* conflictOf(const Context& c, const std::string& relation) {
    for (const auto& conflict : c.solution.conflicts)
        for (const auto& member : conflict.members)
            if (member.id == relation && std::abs(member.w) > c.thresholds.conflictW)
                return &member;
    return nullptr;
}

}  // namespace

void findOpenLoops(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& relation : c.solution.relations) {
        if (relation.inequality) continue;
        const auto* member = conflictOf(c, relation.id.text);
        // A relation that pulls is judged after the worse misfits were taken out one by one;
        // one that only checks, or was left out, by its own misclosure.
        const bool open = relation.used ? member != nullptr : !relation.holds;
        if (!open && !relation.contradicted && !member) continue;
        const auto* entered = c.index.relation(relation.id.text);
        const double factor =
            relation.dimensions.empty() ? 1.0 : c.units[relation.dimensions.front()].factor;
        const std::string unit =
            relation.dimensions.empty() ? "1" : c.units[relation.dimensions.front()].name;
        std::vector<std::pair<std::string, double>> numbers;
        const auto w = member ? std::optional(member->w) : relation.w;
        if (w) numbers.emplace_back("w", *w);
        if (relation.misclosure) numbers.emplace_back("misclosure", *relation.misclosure);
        if (relation.mde) numbers.emplace_back("mde", *relation.mde);
        std::string text = nameOf(c.index, *entered) + " does not close";
        if (relation.misclosure)
            text += fmt::format(": its sides are {} apart",
                                amountText(std::abs(*relation.misclosure) / factor, unit));
        if (w) text += fmt::format(", {} times the doubt of that", plainNumber(std::abs(*w), 2));
        if (relation.contradicted && !w) text += " with the other relations, which hold exactly";
        auto on = dimensionsOf(c, relation);
        on.insert(on.begin(), record::any(relation.id));
        findings.push_back(made("loop-open", std::move(on), sentence(text + "."),
                                "Check whether the relation holds at all, then read each of its "
                                "sizes again. The misfit is not spread over the parts.",
                                std::move(numbers)));
    }
}

}  // namespace evidence::judgement

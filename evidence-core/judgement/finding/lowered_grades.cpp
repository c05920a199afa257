#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

namespace {

Finding findingOf(const Context& c, const record::Lowered& lowered, record::Grade computed) {
    return made("grade-lowered", {lowered.on, record::any(lowered.id)},
                fmt::format("{} was set from {} to {} by {}: {}", nameOfTarget(c.index, lowered.on),
                            record::nameOf(computed), record::nameOf(lowered.grade),
                            nameOf(c.index, lowered.by),
                            lowered.reason.ends_with('.') ? lowered.reason : lowered.reason + "."),
                "An answer to that reason.");
}

}  // namespace

void findLoweredGrades(const Judged& judged, std::vector<Finding>& findings) {
    for (const auto& graded : judged.grades)
        if (graded.lowered)
            findings.push_back(findingOf(judged.context, *graded.lowered, graded.computed));
    for (const auto& fact : judged.facts)
        if (fact.lowered)
            findings.push_back(findingOf(judged.context, *fact.lowered, fact.computed));
}

}  // namespace evidence::judgement

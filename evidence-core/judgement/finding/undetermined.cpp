#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

void findUndetermined(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        if (d.setAside || d.footing == network::Footing::Circular || (d.estimable && d.value))
            continue;
        // A circle's own members are told of there.
        if (std::ranges::any_of(c.solution.circles, [&](const network::Circle& circle) {
                return std::ranges::find(circle.dimensions, i) != circle.dimensions.end();
            }))
            continue;
        std::string text = nameOf(c.record(d)) + " cannot be worked out yet";
        text += d.readings.empty() && d.why.empty() ? ": no evidence speaks of it."
                : d.why.empty()                     ? ": what is known of it is not enough."
                                                    : ": " + d.why + ".";
        findings.push_back(
            made("undetermined", {record::any(d.id)}, std::move(text), judged.grades[i].raiseBy));
    }
}

}  // namespace evidence::judgement

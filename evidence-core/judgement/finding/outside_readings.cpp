#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

void findOutsideReadings(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        if (!d.outsideReadings || d.setAside) continue;
        std::vector<record::AnyId> on{record::any(d.id)};
        for (const auto at : d.readings)
            if (c.solution.readings[at].use == network::ReadingUse::Used)
                on.push_back(record::any(c.solution.readings[at].id));
        std::vector<std::pair<std::string, double>> numbers;
        if (d.value) numbers.emplace_back("value", c.units[i].shown(*d.value));
        findings.push_back(
            made("outside-readings", std::move(on),
                 fmt::format("{}: all evidence together gives {}, which lies outside every one of "
                             "its readings, or one of them pulls it the wrong way. The errors "
                             "they have in common are set larger than the evidence bears.",
                             nameOf(c.record(d)), c.sizeOf(i)),
                 "Look again at the common errors and at the doubt given to each reading.",
                 std::move(numbers)));
    }
}

}  // namespace evidence::judgement

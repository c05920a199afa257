#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <cmath>

namespace evidence::judgement {

void findEchoes(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& reading : c.solution.readings) {
        if (reading.use != network::ReadingUse::Echo || !reading.echoOf) continue;
        const auto& dimension = c.solution.dimensions[reading.dimension];
        const auto& unit = c.units[reading.dimension];
        const std::string name = nameOf(c.record(dimension));
        const std::string echo = nameOf(c.index, *c.index.reading(reading.id.text));
        const std::string leader = nameOf(c.index, *c.index.reading(reading.echoOf->text));
        const std::vector<record::AnyId> on{record::any(dimension.id), record::any(reading.id),
                                            record::any(*reading.echoOf)};
        std::vector<std::pair<std::string, double>> numbers;
        if (reading.echoDifference)
            numbers.emplace_back("difference", unit.shown(*reading.echoDifference));
        if (reading.uEchoDifference)
            numbers.emplace_back("u_difference", unit.shown(*reading.uEchoDifference));
        findings.push_back(
            made("echo", on,
                 fmt::format("{}: {} is an echo of {}. Both go back to one origin, so it is shown "
                             "and not counted.",
                             name, echo, leader),
                 "Nothing needs to be done, unless the two are shown to be independent after all.",
                 numbers));
        if (!reading.echoDifference || !reading.uEchoDifference) continue;
        const double difference = std::abs(*reading.echoDifference);
        if (!(difference > c.thresholds.conflictW * *reading.uEchoDifference)) continue;
        const double times =
            *reading.uEchoDifference > 0 ? difference / *reading.uEchoDifference : 0.0;
        if (times > 0) numbers.emplace(numbers.begin(), "w", times);
        findings.push_back(made(
            "echoes-disagree", on,
            fmt::format("{}: {} and {} go back to one origin and yet differ by {}{}.", name, echo,
                        leader, amountText(unit.shown(difference), unit.name),
                        times > 0 ? fmt::format(", {} times the doubt of that difference",
                                                plainNumber(times, 2))
                                  : std::string{}),
            "Compare the copy with its original: one of the two was copied or read wrongly, or "
            "they do not share an origin.",
            std::move(numbers)));
    }
}

}  // namespace evidence::judgement

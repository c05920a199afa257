#include "evidence-core/network/echo.h"

#include <cmath>
#include <map>
#include <tuple>

namespace evidence::network {

namespace {

/// Own u over the size, which both kinds of reading of one dimension can be compared by.
double ownRelative(const TriagedReading& r) {
    if (r.value && r.spread) return r.spread->u / std::max(std::abs(r.value->value), 1e-9);
    // What the marks add is compared by the run of pixels they span: longer is better.
    return r.pixels ? 1.0 / std::max(r.pixels->value, 1e-9) : 0.0;
}

}  // namespace

void tellEchoes(Triage& triage, const Origins& origins, const std::vector<bool>& onCircle) {
    std::map<std::pair<std::size_t, std::string>, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < triage.readings.size(); ++i) {
        auto& r = triage.readings[i];
        if (r.use == ReadingUse::Echo) r.use = ReadingUse::Used;
        r.echoOf.reset();
        if (r.use == ReadingUse::Used && r.origin)
            groups[{r.dimension, r.origin->text}].push_back(i);
    }
    for (const auto& [key, members] : groups) {
        const auto rank = [&](std::size_t i) {
            const auto& r = triage.readings[i];
            return std::tuple{static_cast<bool>(onCircle[i]), origins.depth(*r.source), r.strength,
                              ownRelative(r), r.key};
        };
        std::size_t leader = members.front();
        for (const std::size_t i : members)
            if (rank(i) < rank(leader)) leader = i;
        for (const std::size_t i : members) {
            if (i == leader) continue;
            triage.readings[i].use = ReadingUse::Echo;
            triage.readings[i].echoOf = leader;
        }
    }
}

}  // namespace evidence::network

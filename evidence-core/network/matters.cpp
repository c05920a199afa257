#include "evidence-core/network/matters.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace evidence::network {

namespace {

/// Wanted tolerance of a critical dimension that states none, inches.
constexpr double kCriticalTolerance = 1.0 / 32.0;

std::optional<Matter> matters(const Net& net, const Solution& s, std::size_t d) {
    const auto& record = net.reg().dimensions[d];
    const auto& found = s.dimensions[d];
    if (!found.value || !found.part) return std::nullopt;
    const bool critical = record.critical.value_or(false);
    if (record.tolerance) {
        const double tolerance =
            std::abs(quantity::toCanonical(*record.tolerance, net.triage.dimensions[d].unit));
        if (!(tolerance > 0)) return std::nullopt;
        const double half = (found.uncut95->high - found.uncut95->low) / 2;
        if (critical || half > tolerance / 2) return Matter{d, tolerance};
        return std::nullopt;
    }
    if (critical && net.triage.dimensions[d].measure == quantity::Measure::Length)
        return Matter{d, kCriticalTolerance};
    return std::nullopt;
}

}  // namespace

std::map<std::size_t, std::vector<Matter>> mattersByPart(const Net& net, const Solution& s) {
    std::vector<std::size_t> byContent(s.dimensions.size());
    std::iota(byContent.begin(), byContent.end(), std::size_t{0});
    std::sort(byContent.begin(), byContent.end(), [&](std::size_t a, std::size_t b) {
        return net.triage.dimensions[a].key < net.triage.dimensions[b].key;
    });
    std::map<std::size_t, std::vector<Matter>> out;
    for (const std::size_t d : byContent)
        if (const auto m = matters(net, s, d)) out[*s.dimensions[d].part].push_back(*m);
    return out;
}

}  // namespace evidence::network

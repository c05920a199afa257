#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace evidence::judgement {

namespace {

std::string dayOf(const std::string& time) {
    return time.substr(0, time.find('T'));
}

/// What the evidence and the departures say now differs from what a slip says.
struct Moved {
    bool moved = false;
    std::string now;
    std::optional<double> by;  ///< shown unit
};

Moved movedSince(const Judged& judged, const record::Slip& slip) {
    const auto& c = judged.context;
    if (const auto at = c.dimensionAt.find(slip.on.text); at != c.dimensionAt.end()) {
        const auto& d = c.solution.dimensions[at->second];
        const auto& unit = c.units[at->second];
        const auto given = shownValue(slip.value, slip.unit, unit);
        if (!given || !d.value || !d.u) return {};
        const double allowed = slip.tolerance.value_or(1.96 * unit.shown(*d.u));
        // A departure is built on purpose; its value is the one the shop should have.
        for (const auto& departure : c.index.reg().departures) {
            if (!(departure.on == slip.on)) continue;
            const auto to = shownValue(departure.to, departure.unit, unit);
            if (to && std::abs(*to - *given) <= allowed) return {};
        }
        const double by = unit.shown(*d.value) - *given;
        return {std::abs(by) > allowed, c.sizeOf(at->second), by};
    }
    for (const auto& fact : judged.facts)
        if (fact.result.id.text == slip.on.text && fact.result.value) {
            const std::string given = foldedText(asWritten(slip.value, slip.unit));
            const auto departed = [&](const record::Departure& departure) {
                return departure.on == slip.on &&
                       foldedText(asWritten(departure.to, departure.unit)) == given;
            };
            if (std::ranges::any_of(c.index.reg().departures, departed)) return {};
            return {foldedText(*fact.result.value) != given, *fact.result.value, std::nullopt};
        }
    return {};
}

void addMoved(const Judged& judged, const record::AnyId& on, std::vector<const record::Slip*> slips,
              std::vector<Finding>& findings) {
    const auto& c = judged.context;
    std::ranges::sort(slips, {}, [](const auto* slip) { return slip->at; });
    const auto newest = movedSince(judged, *slips.back());
    // The shop has been told in the meantime.
    if (!newest.moved) return;
    std::vector<record::AnyId> ids{on};
    std::vector<std::string> out;
    double largest = 0;
    for (const auto* slip : slips) {
        const auto moved = movedSince(judged, *slip);
        if (!moved.moved) continue;
        ids.push_back(record::any(slip->id));
        out.push_back(fmt::format("{} of {}", asWritten(slip->value, slip->unit), dayOf(slip->at)));
        if (moved.by && std::abs(*moved.by) > std::abs(largest)) largest = *moved.by;
    }
    std::vector<std::pair<std::string, double>> numbers;
    if (newest.by) numbers.emplace_back("moved", largest);
    findings.push_back(
        made("slip-moved", std::move(ids),
             fmt::format("{} now stands at {}, and the shop has {}: {}.", nameOfTarget(c.index, on),
                         newest.now, out.size() == 1 ? "an older slip" : "older slips",
                         listText(out, 8)),
             "Stop the work on it or check what has been made, and hand out a new slip.",
             std::move(numbers)));
}

void addEarly(const Context& c, const record::Slip& slip, std::vector<Finding>& findings) {
    const bool ruled = std::ranges::any_of(
        c.index.reg().rulings,
        [&](const record::Ruling& ruling) { return ruling.on == slip.on && ruling.at <= slip.at; });
    if (ruled) return;
    findings.push_back(
        made("released-early", {slip.on, record::any(slip.id)},
             fmt::format("{} went to the shop on {} as {} before anybody had ruled on it.",
                         nameOfTarget(c.index, slip.on), dayOf(slip.at),
                         asWritten(slip.value, slip.unit)),
             "Rule on it, with the reason, and tell the shop if the ruling differs."));
}

}  // namespace

void findSlipFaults(const Judged& judged, std::vector<Finding>& findings) {
    std::map<std::string, std::vector<const record::Slip*>> byTarget;
    for (const auto& slip : judged.context.index.reg().slips) {
        byTarget[slip.on.text].push_back(&slip);
        addEarly(judged.context, slip, findings);
    }
    for (const auto& [on, slips] : byTarget) addMoved(judged, {on}, slips, findings);
}

}  // namespace evidence::judgement

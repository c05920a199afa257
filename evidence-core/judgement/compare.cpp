#include "evidence-core/judgement/compare.h"

#include <algorithm>
#include <cmath>
#include <ranges>
#include <set>

namespace evidence::judgement {

namespace {

template <class Result, class Id>
const Result* find(const std::vector<Result>& results, const Id& id) {
    const auto found = std::ranges::find(results, id, &Result::id);
    return found == results.end() ? nullptr : &*found;
}

std::optional<double> halfInterval(const DimensionResult& result) {
    if (!result.low95 || !result.high95) return std::nullopt;
    return (*result.high95 - *result.low95) / 2;
}

bool hasMoved(const DimensionResult& before, const DimensionResult& after) {
    if (before.value.has_value() != after.value.has_value()) return true;
    if (!before.value || before.unit != after.unit) return before.unit != after.unit;
    return std::abs(*after.value - *before.value) > halfInterval(before).value_or(0);
}

}  // namespace

Comparison compare(const Moment& before, const Moment& after) {
    Comparison changes;
    std::set<std::string> touched;
    for (const auto& now : after.analysis.dimensions) {
        const auto* was = find(before.analysis.dimensions, now.id);
        if (!was) {
            changes.added.push_back(record::any(now.id));
            continue;
        }
        if (hasMoved(*was, now)) {
            changes.moved.push_back({now.id, now.code, was->value, now.value, halfInterval(*was)});
            touched.insert(now.id.text);
        }
        if (was->grade != now.grade)
            changes.grades.push_back({record::any(now.id), now.code, was->grade, now.grade});
    }
    for (const auto& now : after.analysis.particulars) {
        const auto* was = find(before.analysis.particulars, now.id);
        if (!was)
            changes.added.push_back(record::any(now.id));
        else if (was->grade != now.grade)
            changes.grades.push_back({record::any(now.id), now.code, was->grade, now.grade});
    }
    for (const auto& slip : after.reg.slips)
        if (touched.contains(slip.on.text)) changes.slips.push_back(slip.id);
    for (const auto& made : after.reg.asBuilt)
        if (touched.contains(made.on.text)) changes.asBuilt.push_back(made.id);
    return changes;
}

}  // namespace evidence::judgement

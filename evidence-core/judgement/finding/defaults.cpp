#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evidence::judgement {

namespace {

/// Leaves whose doubt nobody measured and that the size cannot do without.
std::vector<std::size_t> decidingDefaults(const Context& c, const network::DimensionSolution& d) {
    std::vector<std::size_t> list;
    for (const auto leaf : d.mustHave)
        if (c.solution.leaves[leaf].byDefault || c.solution.leaves[leaf].floored)
            list.push_back(leaf);
    return list;
}

/// Corrections taken from a table, on readings in use.
std::vector<std::string> tableCorrections(const Context& c, const network::DimensionSolution& d) {
    std::set<std::string> labels;
    for (const auto at : d.readings) {
        const auto& reading = c.solution.readings[at];
        if (reading.use != network::ReadingUse::Used) continue;
        for (const auto& correction : c.index.reading(reading.id.text)->corrections)
            if (correction.tableRow || correction.basis == record::Basis::TradeRule)
                labels.insert("“" + correction.label + "”");
    }
    return {labels.begin(), labels.end()};
}

}  // namespace

void findDefaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        if (d.setAside || !d.estimable) continue;
        const std::string name = nameOf(c.record(d));
        if (const auto leaves = decidingDefaults(c, d); !leaves.empty()) {
            const bool floored = std::ranges::any_of(
                leaves, [&](std::size_t leaf) { return c.solution.leaves[leaf].floored; });
            std::string text = fmt::format(
                "{}: the doubt given to {} is the usual one for its kind, not a "
                "measured one.",
                name, listText(c.namesOfLeaves(leaves, i), 3));
            if (floored)
                text = fmt::format(
                    "{}: the doubt given to {} was smaller than a guess may claim; "
                    "the floor is used instead.",
                    name, listText(c.namesOfLeaves(leaves, i), 3));
            findings.push_back(
                made("default-correction", {record::any(d.id)}, std::move(text),
                     floored ? "Say why the guess is known more closely, or leave the floor."
                             : "Say how closely it was measured, figured or rounded.",
                     {{"leaves", static_cast<double>(leaves.size())}}));
        }
        if (const auto labels = tableCorrections(c, d); !labels.empty())
            findings.push_back(
                made("default-correction", {record::any(d.id)},
                     fmt::format("{}: the correction {} comes from a table, not from this part.",
                                 name, listText(labels)),
                     "Measure what it corrects for on the part or the sheet itself.",
                     {{"corrections", static_cast<double>(labels.size())}}));
    }
}

}  // namespace evidence::judgement

#include "evidence-core/judgement/context.h"

#include "evidence-core/judgement/wording.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evidence::judgement {

Thresholds thresholdsOf(const record::ArchiveInfo& archive) {
    Thresholds t;
    if (!archive.settings) return t;
    const auto& s = *archive.settings;
    t.conflictW = s.conflictW.value_or(t.conflictW);
    t.offPlaneDistance = s.offPlaneDistance.value_or(t.offPlaneDistance);
    t.longChainSteps = s.longChainSteps.value_or(t.longChainSteps);
    t.shareNotAboveF = s.shareNotAboveF.value_or(t.shareNotAboveF);
    t.shareNotAboveT = s.shareNotAboveT.value_or(t.shareNotAboveT);
    t.shareNotAboveB = s.shareNotAboveB.value_or(t.shareNotAboveB);
    t.shareOurs = s.shareOurs.value_or(t.shareOurs);
    return t;
}

Result<ShownUnit> shownUnitOf(const record::Dimension& dimension) {
    const auto measure = record::measureOf(dimension.quantity);
    if (!dimension.unit) {
        const auto unit = quantity::canonicalUnit(measure);
        return ShownUnit{std::string(quantity::nameOf(unit)), 1, measure};
    }
    const auto unit = quantity::unitNamed(*dimension.unit, measure);
    if (!unit)
        return refuse(unit.error().code, "dimension " + dimension.id.text, unit.error().help);
    return ShownUnit{std::string(quantity::nameOf(*unit)), quantity::factorToCanonical(*unit),
                     measure};
}

namespace {

/// The leaves a dimension hangs on: those that pull it, those it cannot do without, and the exact
/// relations that join what is among them.
std::vector<std::string> leavesOf(const network::Solution& solution,
                                  const network::DimensionSolution& d) {
    // Below this share a leaf is rounding of the solution, no pull.
    constexpr double kRounding = 1e-9;
    std::set<std::size_t> leaves(d.mustHave.begin(), d.mustHave.end());
    for (const auto& part : d.contributions)
        if (part.share > kRounding) leaves.insert(part.leaf);
    std::set<std::size_t> joined;
    for (const auto& reading : solution.readings)
        if (reading.leaf && leaves.contains(*reading.leaf)) joined.insert(reading.dimension);
    for (const auto& frame : solution.frames)
        for (const auto& reference : frame.references)
            if (reference.dimension && reference.leaf && leaves.contains(*reference.leaf))
                joined.insert(*reference.dimension);
    for (std::size_t i = 0; i < solution.dimensions.size(); ++i)
        if (&solution.dimensions[i] == &d) joined.insert(i);
    for (const auto& relation : solution.relations) {
        if (!relation.used || !relation.leaf) continue;
        const auto among = std::ranges::count_if(
            relation.dimensions, [&](std::size_t at) { return joined.contains(at); });
        if (among >= 2) leaves.insert(*relation.leaf);
    }
    std::vector<std::string> ids;
    for (const auto leaf : leaves) ids.push_back(solution.leaves[leaf].id);
    return ids;
}

}  // namespace

Result<Context> contextOf(const Index& index, const Lineage& lineage, const Digests& digests,
                          const network::Solution& solution, const Surroundings& surroundings) {
    Context c{index, lineage, digests, solution, surroundings, thresholdsOf(index.reg().archive),
              {},    {},      {},      {},       {},           {}};
    for (std::size_t i = 0; i < solution.dimensions.size(); ++i) {
        auto unit = shownUnitOf(*index.dimension(solution.dimensions[i].id.text));
        if (!unit) return tl::unexpected(unit.error());
        c.units.push_back(std::move(*unit));
        c.dimensionAt.emplace(solution.dimensions[i].id.text, i);
    }
    for (std::size_t i = 0; i < solution.readings.size(); ++i)
        c.readingAt.emplace(solution.readings[i].id.text, i);
    for (std::size_t i = 0; i < solution.frames.size(); ++i)
        c.frameAt.emplace(solution.frames[i].id.text, i);
    for (std::size_t i = 0; i < solution.relations.size(); ++i)
        c.relationAt.emplace(solution.relations[i].id.text, i);
    c.conflictsOf.resize(solution.dimensions.size());
    for (std::size_t i = 0; i < solution.conflicts.size(); ++i)
        for (const auto& member : solution.conflicts[i].members)
            if (const auto at = c.readingAt.find(member.id); at != c.readingAt.end()) {
                auto& list = c.conflictsOf[solution.readings[at->second].dimension];
                if (list.empty() || list.back() != i) list.push_back(i);
            }
    for (const auto& d : solution.dimensions)
        c.evidence.push_back(
            digests.ofDimension(*index.dimension(d.id.text), leavesOf(solution, d)));
    return c;
}

std::optional<double> Context::halfWidth(std::size_t dimension) const {
    const auto& d = solution.dimensions[dimension];
    if (!d.interval95) return std::nullopt;
    return units[dimension].shown(d.interval95->high - d.interval95->low) / 2;
}

std::string Context::sizeOf(std::size_t dimension) const {
    const auto& d = solution.dimensions[dimension];
    if (!d.value) return "no value";
    return sizeText(units[dimension].shown(*d.value), halfWidth(dimension), units[dimension].name);
}

std::vector<std::string> Context::namesOfLeaves(const std::vector<std::size_t>& leaves,
                                                std::size_t about) const {
    std::vector<std::string> names;
    for (const auto at : leaves) {
        const auto& leaf = solution.leaves[at];
        if (leaf.kind == network::LeafKind::Workmanship || leaf.kind == network::LeafKind::Placing)
            continue;
        const std::string name = nameOfLeaf(index, leaf.id, solution.dimensions[about].id.text);
        if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    }
    return names;
}

Result<double> shownValue(const record::Written& value, const std::optional<std::string>& given,
                          const ShownUnit& unit) {
    auto bare = quantity::unitNamed(given.value_or(unit.name), unit.measure);
    if (!bare) return tl::unexpected(bare.error());
    if (const auto* number = std::get_if<record::Number>(&value))
        return quantity::toCanonical(number->value, *bare) / unit.factor;
    const auto read = quantity::parseQuantity(std::get<std::string>(value), unit.measure, *bare);
    if (!read) return tl::unexpected(read.error());
    return read->canonical / unit.factor;
}

bool isOfAnotherState(const Index& index, const record::Reading& reading,
                      const std::optional<record::StateId>& wanted) {
    if (!wanted) return false;
    const auto speaksOf = [&](const std::vector<record::StateId>& states) {
        return std::ranges::find(states, *wanted) != states.end();
    };
    // What the reading itself says goes before what its source shows on the whole.
    if (!reading.states.empty()) return !speaksOf(reading.states);
    const auto* source = index.sourceOf(reading);
    return source && !source->states.empty() && !speaksOf(source->states);
}

}  // namespace evidence::judgement

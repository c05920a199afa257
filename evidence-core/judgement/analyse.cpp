#include "evidence-core/judgement/analyse.h"

#include "evidence-core/judgement/context.h"
#include "evidence-core/judgement/findings.h"
#include "evidence-core/judgement/order.h"
#include "evidence-core/judgement/results.h"

#include <algorithm>

namespace evidence::judgement {

namespace {

/// The kinds of findings on a record, by usual severity.
std::vector<std::string> flagsOf(const std::vector<Finding>& findings, const std::string& id) {
    std::vector<std::string> flags;
    for (const auto& [kind, severity] : allKinds())
        if (std::ranges::any_of(findings, [&, name = kind](const Finding& f) {
                return f.kind == name &&
                       std::ranges::any_of(f.on, [&](const auto& on) { return on.text == id; });
            }))
            flags.emplace_back(kind);
    return flags;
}

std::vector<Fact> factsOf(const Context& context) {
    std::vector<Fact> facts;
    for (const auto& particular : context.index.reg().particulars)
        facts.push_back(factOf(context, particular));
    std::ranges::stable_sort(facts, [&](const Fact& a, const Fact& b) {
        if (a.result.code != b.result.code) return codeBefore(a.result.code, b.result.code);
        const auto* first = context.index.particular(a.result.id.text);
        const auto* second = context.index.particular(b.result.id.text);
        if (first->name != second->name) return first->name < second->name;
        return a.result.digest < b.result.digest;
    });
    return facts;
}

}  // namespace

Result<Analysis> analyse(const record::Register& reg, const AnalyseOptions& options) {
    const auto solution = network::solve(reg);
    if (!solution) return tl::unexpected(solution.error());
    const Index index(reg);
    const Lineage lineage(index);
    const Digests digests(index);
    const auto context = contextOf(index, lineage, digests, *solution, options.surroundings);
    if (!context) return tl::unexpected(context.error());

    std::vector<Graded> grades;
    for (std::size_t i = 0; i < solution->dimensions.size(); ++i)
        grades.push_back(gradeOf(*context, i));
    const auto facts = factsOf(*context);
    const auto order = orderOfDimensions(*context);

    Analysis analysis;
    analysis.network = networkResult(*solution);
    analysis.parts = partResults(*context, order);
    analysis.findings = findingsOf({*context, grades, facts});
    for (const auto i : order) {
        auto result = dimensionResult(*context, i, grades[i]);
        result.flags = flagsOf(analysis.findings, result.id.text);
        analysis.dimensions.push_back(std::move(result));
    }
    for (const auto& fact : facts) analysis.particulars.push_back(fact.result);
    analysis.relations = relationResults(*context);
    analysis.frames = frameResults(*context);
    analysis.seekNext = seekNext(*context, order);
    analysis.hurtsMost = hurtsMost(*context);
    auto covariance = covariances(*context, options.covariance);
    if (!covariance) return tl::unexpected(covariance.error());
    analysis.covariance = std::move(*covariance);
    return analysis;
}

}  // namespace evidence::judgement

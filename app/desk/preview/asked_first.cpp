#include "app/desk/preview/asked_first.h"

#include "app/report/selection.h"

#include <algorithm>

namespace app::desk::preview {

namespace judgement = evidence::judgement;

namespace {

bool weighs(const judgement::Finding& finding) {
    return !finding.acknowledged && (finding.severity == judgement::Severity::High ||
                                     finding.severity == judgement::Severity::Medium);
}

/// Whether one of its records is among the chosen sizes, or a reading of one.
bool concerns(const judgement::Finding& finding, const report::Selection& chosen,
              const report::RegisterIndex& index) {
    return std::ranges::any_of(finding.on, [&](const evidence::record::AnyId& id) {
        const auto* reading = index.reading(id.text);
        return chosen.holds(reading ? reading->of.text : id.text);
    });
}

}  // namespace

std::vector<std::size_t> askedFirst(const Judged& judged,
                                    const evidence::record::ReportFilter& filter) {
    const report::RegisterIndex index(judged.snapshot->reg, judged.analysis);
    const auto chosen = report::select(index, filter);
    std::vector<std::size_t> asked;
    if (!chosen) return asked;
    const auto& findings = judged.analysis.findings;
    for (std::size_t i = 0; i < findings.size(); ++i)
        if (weighs(findings[i]) && (chosen->everything || concerns(findings[i], *chosen, index)))
            asked.push_back(i);
    return asked;
}

}  // namespace app::desk::preview

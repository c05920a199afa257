#include "app/session/evidence_now.h"

#include "app/session/result_of.h"
#include "app/session/shown.h"
#include "evidence-core/judgement/thread.h"
#include "evidence-core/quantity/significant.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace app::session {

namespace judgement = evidence::judgement;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

namespace {

std::string withCode(const std::string& name, const std::optional<std::string>& code) {
    return code ? fmt::format("{} ({})", name, *code) : name;
}

std::string shareText(double share) {
    if (!(share > 0)) return {};
    return share < 0.005 ? "under 1 %" : fmt::format("{} %", std::lround(share * 100));
}

/// Nodes of the thread as lines: the size's own readings, and all that lies behind them.
void addThread(const record::AnyId& on, const record::Register& reg,
               const judgement::Analysis& analysis, EvidenceNow& now) {
    const auto thread = judgement::threadOf(on, reg, analysis);
    for (std::size_t i = 0; i < thread.nodes.size(); ++i) {
        const auto& node = thread.nodes[i];
        double share = 0;
        for (const auto& link : thread.links)
            if (link.from == i) share = std::max(share, link.share);
        EvidenceLine line{{node.id},  node.title, shareText(share),
                          node.guess, node.echo,  node.setAside};
        const auto* reading = record::find(reg, record::ReadingId{node.id});
        if (reading && reading->of == on)
            now.readings.push_back(std::move(line));
        else if (node.stage != judgement::ThreadStage::Mark && node.id != on.text)
            now.restsOn.push_back(std::move(line));
    }
}

void addFindings(const record::AnyId& on, const judgement::Analysis& analysis, EvidenceNow& now) {
    for (const auto& finding : analysis.findings)
        if (!finding.acknowledged && finding.severity != judgement::Severity::Note &&
            std::ranges::count(finding.on, on) > 0)
            now.findings.push_back(finding.text);
}

std::string writtenText(const record::Written& value, const std::optional<std::string>& unit) {
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    const auto& number = std::get<record::Number>(value);
    const std::string digits =
        number.text.empty() ? quantity::significantText(number.value, 6) : number.text;
    return unit ? digits + " " + *unit : digits;
}

void addRuling(const record::AnyId& on, const record::Register& reg, EvidenceNow& now) {
    const record::Ruling* current = nullptr;
    for (const auto& ruling : reg.rulings)
        if (ruling.on == on && (!current || ruling.at >= current->at)) current = &ruling;
    if (current)
        now.ruled =
            fmt::format("{}: {}", writtenText(current->value, current->unit), current->reason);
}

/// Bare inches and a fraction: nobody writes a tolerance in feet.
std::string toleranceOf(const record::Dimension& dimension, const record::Register& reg) {
    if (!dimension.tolerance) return {};
    auto display = displayOf(reg.archive);
    if (display.style == quantity::LengthStyle::FeetInches)
        display.style = quantity::LengthStyle::InchFraction;
    return quantity::valueText(
        quantity::toCanonical(*dimension.tolerance, record::unitOf(dimension)),
        record::measureOf(dimension.quantity), display);
}

void addSize(const record::Dimension& dimension, const record::Register& reg,
             const judgement::DimensionResult& result, EvidenceNow& now) {
    const auto measure = record::measureOf(dimension.quantity);
    const auto unit = record::unitOf(dimension);
    const auto display = displayOf(reg.archive);
    now.size = shown(result, dimension, reg.archive, quantity::Typesetting::Typographic).text();
    if (result.value)
        now.buildValue =
            quantity::valueText(quantity::toCanonical(*result.value, unit), measure, display);
    now.grade = result.grade;
    now.gradeWhy = result.gradeWhy;
    now.raiseBy = result.raiseBy;
    now.state = record::EvidenceState{result.value, result.u, result.grade, result.digest};
}

}  // namespace

EvidenceNow evidenceNow(const record::AnyId& on, const record::Register& reg,
                        const judgement::Analysis& analysis) {
    EvidenceNow now;
    now.size = "not known";
    if (const auto* dimension = record::find(reg, record::DimensionId{on.text})) {
        now.name = withCode(dimension->name, dimension->code);
        now.component = dimension->component.value_or("");
        now.isSize = true;
        now.critical = dimension->critical.value_or(false);
        now.wantedTolerance = toleranceOf(*dimension, reg);
        if (const auto* result = resultOfDimension(analysis, on.text))
            addSize(*dimension, reg, *result, now);
    } else if (const auto* particular = record::find(reg, record::ParticularId{on.text})) {
        now.name = withCode(particular->name, particular->code);
        now.component = particular->component.value_or("");
        if (const auto* result = resultOfParticular(analysis, on.text)) {
            now.size = result->value.value_or("not known");
            now.buildValue = result->value.value_or("");
            now.grade = result->grade;
            now.gradeWhy = result->gradeWhy;
            now.state = record::EvidenceState{{}, {}, result->grade, result->digest};
        }
    }
    addThread(on, reg, analysis, now);
    addFindings(on, analysis, now);
    addRuling(on, reg, now);
    return now;
}

evidence::Result<std::optional<record::EvidenceState>> evidenceToKeep(
    const record::AnyId& on, const Snapshot& now, const Snapshot* judged,
    const judgement::Analysis& analysis) {
    if (!judged || judged->version != now.version)
        return evidence::refuse(evidence::Code::Stale, "evidence",
                                "The evidence is being worked out anew: look at it once it stands "
                                "here, then keep the ruling.");
    return evidenceNow(on, judged->reg, analysis).state;
}

}  // namespace app::session

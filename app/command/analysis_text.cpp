#include "app/command/analysis_text.h"

#include "app/session/shown.h"
#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace app::command {

namespace {

using evidence::judgement::Analysis;
using evidence::judgement::DimensionResult;
using evidence::judgement::Finding;
using evidence::judgement::Severity;
using evidence::record::Grade;
using evidence::record::Register;

constexpr std::array kGrades{Grade::InHand,      Grade::Figured, Grade::TakenOff, Grade::BoxedIn,
                             Grade::CarriedOver, Grade::OurCall, Grade::Blank};

std::string gradeCounts(const Analysis& analysis) {
    std::string text;
    for (const Grade grade : kGrades) {
        const auto count = std::ranges::count(analysis.dimensions, grade, &DimensionResult::grade);
        text += fmt::format("{}{} {}", text.empty() ? "" : "  ", nameOf(grade), count);
    }
    return text;
}

std::ptrdiff_t open(const Analysis& analysis, Severity severity) {
    return std::ranges::count_if(analysis.findings, [&](const Finding& finding) {
        return finding.severity == severity && !finding.acknowledged;
    });
}

std::string heading(Severity severity) {
    switch (severity) {
        case Severity::High:
            return "Settle first";
        case Severity::Medium:
            return "Soon";
        case Severity::Low:
            return "When you can";
        case Severity::Note:
            return "Notes";
    }
    return {};
}

std::string dimensionLine(const Register& reg, const DimensionResult& result) {
    const auto* dimension = find(reg, result.id);
    const auto shown = session::shown(result, *dimension, reg.archive);
    return fmt::format("{:<6} {}  {:<44} {:>16} {:<16}{}\n", result.code, nameOf(result.grade),
                       dimension->name, shown.value, shown.spread,
                       result.restsOnGuess ? "  rests on a guess" : "");
}

}  // namespace

std::optional<Severity> severityByName(const std::string& name) {
    if (name == "high") return Severity::High;
    if (name == "medium") return Severity::Medium;
    if (name == "low") return Severity::Low;
    if (name == "note") return Severity::Note;
    return std::nullopt;
}

std::string briefText(const Register& reg, const Analysis& analysis) {
    const auto guessed =
        std::ranges::count(analysis.dimensions, true, &DimensionResult::restsOnGuess);
    const auto critical =
        std::ranges::count_if(analysis.dimensions, [&](const DimensionResult& result) {
            return result.restsOnGuess && find(reg, result.id)->critical.value_or(false);
        });
    const auto conflicts =
        std::ranges::count(analysis.findings, std::string("conflict"), &Finding::kind);
    std::string text = fmt::format("Register:   {}\n", reg.archive.title);
    text += fmt::format("Holds:      {} dimensions, {} particulars, {} readings, {} sources\n",
                        reg.dimensions.size(), reg.particulars.size(), reg.readings.size(),
                        reg.sources.size());
    text +=
        fmt::format("Held up by: {}   (H in hand … O our call, - blank)\n", gradeCounts(analysis));
    text += fmt::format("Guesses:    {} dimensions rest on a guess, {} of them safety-critical\n",
                        guessed, critical);
    text +=
        fmt::format("Conflicts:  {} between readings, shown and not averaged away\n", conflicts);
    text += fmt::format("Findings:   {} to settle first, {} soon, {} when you can\n",
                        open(analysis, Severity::High), open(analysis, Severity::Medium),
                        open(analysis, Severity::Low));
    if (!analysis.seekNext.empty()) {
        const auto& seek = analysis.seekNext.front();
        text += fmt::format("Look for:   {} of {}: it would help {} {} most\n",
                            seek.by == "gauged" ? "a surviving part" : "a second picture",
                            find(reg, seek.dimension)->name, seek.helps.size(),
                            seek.helps.size() == 1 ? "dimension" : "dimensions");
    }
    return text;
}

std::string fullText(const Register& reg, const Analysis& analysis) {
    std::string text = briefText(reg, analysis) + "\n";
    for (const auto& result : analysis.dimensions) text += dimensionLine(reg, result);
    for (const auto severity : {Severity::High, Severity::Medium, Severity::Low, Severity::Note}) {
        bool headed = false;
        for (const auto& finding : analysis.findings) {
            if (finding.severity != severity) continue;
            if (!headed) text += fmt::format("\n{}\n", heading(severity));
            headed = true;
            text += fmt::format("- {}{}\n", finding.acknowledged ? "(acknowledged) " : "",
                                finding.text);
            if (!finding.settle.empty()) text += fmt::format("  {}\n", finding.settle);
        }
    }
    return text;
}

}  // namespace app::command

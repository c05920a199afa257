#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/finder.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace evidence::judgement {

namespace {

constexpr std::array kFinders{
    findConflicts,       findLikelyMistakes, findOpenLoops,    findExcludingLimits,
    findOutsideReadings, findGuesses,        findThinEvidence, findEchoes,
    findCircles,         findUndetermined,   findScaleFaults,  findPlaneFaults,
    findStateFaults,     findPartFaults,     findDefaults,     findTolerances,
    findRulingFaults,    findSlipFaults,     findDepartures,   findOpenQueries,
    findLoweredGrades,   findDisagreeing,    findFileFaults,   findMissingReasons,
};

using KindSeverity = std::pair<std::string_view, Severity>;
constexpr std::array<KindSeverity, 39> kKinds{{
    {"conflict", Severity::High},
    {"loop-open", Severity::High},
    {"circular", Severity::High},
    {"limits-exclude", Severity::High},
    {"likely-mistake", Severity::High},
    {"echoes-disagree", Severity::High},
    {"outside-readings", Severity::High},
    {"file-missing", Severity::High},
    {"file-altered", Severity::High},
    {"journal-broken", Severity::High},
    {"slip-moved", Severity::High},
    {"rests-on-guess", Severity::Medium},  // high on a safety-critical dimension
    {"undetermined", Severity::Medium},
    {"unscaled", Severity::Medium},
    {"unsupported-reference", Severity::Medium},
    {"pulled-by-guess", Severity::Medium},
    {"particular-disagree", Severity::Medium},
    {"ruling-stale", Severity::Medium},
    {"ruling-outside", Severity::Medium},
    {"tolerance-finer", Severity::Medium},
    {"off-plane", Severity::Medium},
    {"beyond-reference", Severity::Medium},
    {"unequal-stretch", Severity::Medium},
    {"other-state", Severity::Medium},
    {"proposal-evidence", Severity::Medium},
    {"altered-part", Severity::Medium},
    {"anachronism", Severity::Medium},
    {"double-correction", Severity::Medium},
    {"no-reason", Severity::Medium},
    {"departure-unapproved", Severity::Medium},
    {"single-origin", Severity::Low},
    {"long-chain", Severity::Low},
    {"released-early", Severity::Low},
    {"default-correction", Severity::Low},
    {"open-query", Severity::Low},
    {"single-reading", Severity::Note},
    {"echo", Severity::Note},
    {"departure", Severity::Note},
    {"grade-lowered", Severity::Note},
}};

}  // namespace

std::span<const Finder> finders() {
    static const std::vector<Finder> list(kFinders.begin(), kFinders.end());
    return list;
}

std::span<const KindSeverity> allKinds() {
    return kKinds;
}

Severity usualSeverity(std::string_view kind) {
    const auto at = std::ranges::find(kKinds, kind, &KindSeverity::first);
    assert(at != kKinds.end() && "a finding of a kind that the contract does not have");
    return at == kKinds.end() ? Severity::High : at->second;
}

Finding made(std::string_view kind, std::vector<record::AnyId> on, std::string text,
             std::string settle, std::vector<std::pair<std::string, double>> numbers) {
    Finding finding;
    finding.kind = kind;
    finding.severity = usualSeverity(kind);
    finding.on = std::move(on);
    finding.numbers = std::move(numbers);
    finding.text = std::move(text);
    finding.settle = std::move(settle);
    return finding;
}

}  // namespace evidence::judgement

#include "app/report/finding_groups.h"
#include "app/report/sections.h"
#include "app/report/wording.h"

#include <algorithm>
#include <set>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

const std::set<std::string> kConflicts{
    "conflict",       "loop-open",        "limits-exclude",      "echoes-disagree",
    "likely-mistake", "outside-readings", "particular-disagree", "circular"};

// Kinds that a section of their own lists, below or elsewhere in the report.
const std::set<std::string> kOneWitness{"single-origin", "single-reading"};
const std::set<std::string> kElsewhere{"pulled-by-guess", "rests-on-guess", "departure",
                                       "open-query"};

// A finding concerns the report where one of its records is shown, or belongs to what is shown.
bool concerns(const Writing& writing, const Finding& finding) {
    if (writing.selection.everything || finding.on.empty()) return true;
    return std::any_of(finding.on.begin(), finding.on.end(), [&](const AnyId& id) {
        if (writing.selection.holds(id.text)) return true;
        const Reading* reading = writing.index.reading(id.text);
        return reading != nullptr && writing.selection.holds(reading->of.text);
    });
}

template <class Fits>
std::vector<const Finding*> findingsThat(const Writing& writing, const Fits& fits) {
    std::vector<const Finding*> found;
    for (const Finding& f : writing.index.analysis.findings)
        if (concerns(writing, f) && fits(f)) found.push_back(&f);
    return found;
}

void writeConflictList(Writing& writing) {
    Document& document = writing.document;
    document.heading(2, QStringLiteral("Conflicts"), QStringLiteral("conflict-list"));
    document.paragraph(Text(
        "Where evidence speaks against evidence. A conflict moves no value and widens none: both "
        "sides are shown, and what would settle it."));
    List list;
    bool critical = false;
    for (const Finding* f :
         findingsThat(writing, [](const Finding& f) { return kConflicts.contains(f.kind); })) {
        list.items.push_back(findingWords(writing.index, *f));
        for (const AnyId& id : f->on)
            if (const Dimension* d = writing.index.dimension(id.text))
                critical = critical || d->critical.value_or(false);
    }
    if (list.items.empty())
        document.paragraph(Text("No conflict is known."));
    else
        document.add(std::move(list));
    if (critical) document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
}

void writeSeverity(Writing& writing, const char* title, const char* anchor, Severity severity) {
    const auto found = findingsThat(writing, [&](const Finding& f) {
        if (f.severity != severity) return false;
        if (kConflicts.contains(f.kind) || kOneWitness.contains(f.kind)) return false;
        return severity == Severity::High || !kElsewhere.contains(f.kind);
    });
    if (found.empty()) return;
    writing.document.heading(2, QString::fromUtf8(title), QString::fromUtf8(anchor));
    writeFindings(writing, found);
}

}  // namespace

void writeConflicts(Writing& writing) {
    Document& document = writing.document;
    document.heading(1, QStringLiteral("Conflicts and findings"), QStringLiteral("conflicts"));
    document.paragraph(
        Text("What the analysis finds fault with. What rests or leans on a guess, open queries and "
             "departures have sections of their own: ")
            .link(QStringLiteral("Where conjecture begins"), QStringLiteral("guesses"))
            .add(QStringLiteral(", "))
            .link(QStringLiteral("What was asked"), QStringLiteral("questions"))
            .add(QStringLiteral(", "))
            .link(QStringLiteral("Departures"), QStringLiteral("departures"))
            .add(QStringLiteral(".")));
    writeConflictList(writing);
    writeSeverity(writing, "Settle first", "settle-first", Severity::High);
    writeSeverity(writing, "Settle soon", "settle-soon", Severity::Medium);
    writeSeverity(writing, "When there is time", "settle-later", Severity::Low);
    writeSeverity(writing, "Worth knowing", "worth-knowing", Severity::Note);
    writeOneWitness(writing, findingsThat(writing, [](const Finding& f) {
                        return kOneWitness.contains(f.kind);
                    }));
}

}  // namespace app::report

#include "app/report/sections.h"
#include "app/report/value_words.h"
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

// A finding concerns the report where one of its records is shown, or belongs to what is shown.
bool concerns(const Writing& writing, const Finding& finding) {
    if (writing.selection.everything || finding.on.empty()) return true;
    return std::any_of(finding.on.begin(), finding.on.end(), [&](const AnyId& id) {
        if (writing.selection.holds(id.text)) return true;
        const Reading* reading = writing.index.reading(id.text);
        return reading != nullptr && writing.selection.holds(reading->of.text);
    });
}

QString numberWords(const Finding& finding) {
    QStringList words;
    for (const auto& [name, value] : finding.numbers)
        words << shown(name).replace(QLatin1Char('_'), QLatin1Char(' ')) + u' ' + rounded(value, 3);
    return words.join(QStringLiteral(", "));
}

Text findingWords(const Writing& writing, const Finding& f) {
    const RegisterIndex& index = writing.index;
    Text words;
    words.bold(findingName(f.kind) + QStringLiteral(". "),
               f.severity == Severity::High && !f.acknowledged ? Tone::Red : Tone::Ink);
    words.add(shown(f.text));
    if (!f.settle.empty()) words.add(QStringLiteral(" To settle it: ") + shown(f.settle));
    words.add(QStringLiteral(" "));
    std::size_t n = 0;
    for (const AnyId& id : f.on) {
        if (++n > 6) {
            words.add(QStringLiteral(" …"));
            break;
        }
        words.add(n == 1 ? QStringLiteral("[") : QStringLiteral(", "));
        words.link(index.code(id.text), index.anchor(id.text));
    }
    if (n > 0) words.add(QStringLiteral("]"));
    const QString numbers = numberWords(f);
    if (!numbers.isEmpty())
        words.add(QStringLiteral(" ") + numbers + QStringLiteral("."), Tone::Faint);
    for (const Acknowledgement& a : index.reg.acknowledgements)
        if (f.acknowledged && a.finding.kind == f.kind && a.finding.on == f.on)
            words.add(QStringLiteral(" May stand, says %1, %2: %3")
                          .arg(index.personName(a.by.text), dateWords(a.at), shown(a.reason)));
    return words;
}

void writeGroup(Writing& writing, const char* title, const char* anchor, Severity severity) {
    List list;
    for (const Finding& f : writing.index.analysis.findings)
        if (f.severity == severity && kConflicts.count(f.kind) == 0 && concerns(writing, f))
            list.items.push_back(findingWords(writing, f));
    if (list.items.empty()) return;
    writing.document.heading(2, QString::fromUtf8(title), QString::fromUtf8(anchor));
    writing.document.add(std::move(list));
}

}  // namespace

void writeConflicts(Writing& writing) {
    Document& document = writing.document;
    document.blocks.emplace_back(Heading{
        1, QStringLiteral("Conflicts and findings"), QStringLiteral("conflicts"), {}, {}, true});
    document.heading(2, QStringLiteral("Conflicts"), QStringLiteral("conflict-list"));
    document.paragraph(Text(
        "Where evidence speaks against evidence. A conflict moves no value and widens none: both "
        "sides are shown, and what would settle it."));
    List list;
    bool critical = false;
    for (const Finding& f : writing.index.analysis.findings) {
        if (kConflicts.count(f.kind) == 0 || !concerns(writing, f)) continue;
        list.items.push_back(findingWords(writing, f));
        for (const AnyId& id : f.on)
            if (const Dimension* d = writing.index.dimension(id.text))
                critical = critical || d->critical.value_or(false);
    }
    if (list.items.empty())
        document.paragraph(Text("No conflict is known."));
    else
        document.add(std::move(list));
    if (critical) document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
    writeGroup(writing, "Settle first", "settle-first", Severity::High);
    writeGroup(writing, "Settle soon", "settle-soon", Severity::Medium);
    writeGroup(writing, "When there is time", "settle-later", Severity::Low);
    writeGroup(writing, "Worth knowing", "worth-knowing", Severity::Note);
}

}  // namespace app::report

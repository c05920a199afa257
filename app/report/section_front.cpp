#include "app/report/sections.h"
#include "app/report/wording.h"

#include <set>

namespace app::report {

using namespace evidence::record;

namespace {

QString reportName(Kind kind) {
    switch (kind) {
        case Kind::Provenance:
            return QStringLiteral("Provenance report");
        case Kind::Short:
            return QStringLiteral("Provenance report, short edition");
        case Kind::Shop:
            return QStringLiteral("Shop sheets");
        case Kind::Slip:
            return QStringLiteral("Slip");
        case Kind::Departures:
            return QStringLiteral("Statement of departures");
        case Kind::Guesses:
            break;
    }
    return QStringLiteral("Register of guesses");
}

// The moments that the dimensions shown speak of, in the order of time.
QStringList momentsOf(const Writing& writing) {
    std::set<std::string> used;
    for (const Dimension* d : writing.selection.dimensions)
        if (d->state) used.insert(d->state->text);
    for (const Particular* p : writing.selection.particulars)
        if (p->state) used.insert(p->state->text);
    QStringList words;
    for (const State& state : writing.index.reg.states)
        if (used.count(state.id.text) > 0) words << stateWords(state);
    return words;
}

}  // namespace

void writeFront(Writing& writing) {
    const ArchiveInfo& archive = writing.index.reg.archive;
    Document& document = writing.document;
    const QString subject = archive.subject ? shown(*archive.subject) : shown(archive.title);
    document.paragraph(Text(reportName(writing.request.kind)), ParagraphStyle::Subtitle);
    document.paragraph(Text(shown(archive.title)), ParagraphStyle::Title);
    if (archive.subject) document.paragraph(Text(subject), ParagraphStyle::Lead);
    const QStringList moments = momentsOf(writing);
    Facts facts;
    if (!moments.isEmpty())
        facts.add(QStringLiteral("Moment represented"), Text(moments.join(QStringLiteral("; "))));
    facts.add(QStringLiteral("What this is about"),
              Text("A modern re-creation. Nothing in this report makes new work original: sizes "
                   "are those of the original as far as the evidence reaches, and every place "
                   "where it does not reach is named."));
    facts.add(QStringLiteral("Written on"), Text(dateWords(writing.request.at)));
    if (!writing.selection.words.isEmpty())
        facts.add(QStringLiteral("Shows"), Text(writing.selection.words));
    int dimensions = int(writing.selection.dimensions.size());
    int particulars = int(writing.selection.particulars.size());
    facts.add(QStringLiteral("Holds"),
              Text(QStringLiteral("%1 dimensions, %2 particulars, %3 readings, %4 sources")
                       .arg(QString::number(dimensions), QString::number(particulars),
                            QString::number(writing.index.reg.readings.size()),
                            QString::number(writing.index.reg.sources.size()))));
    QStringList compilers;
    for (const Person& person : writing.index.reg.people)
        if (person.role == Role::Compiler) compilers << shown(person.name);
    if (!compilers.isEmpty())
        facts.add(QStringLiteral("Compiled by"), Text(compilers.join(QStringLiteral(", "))));
    if (!writing.request.registerDigest.empty())
        facts.add(QStringLiteral("Register digest"),
                  Text().digest(shown(writing.request.registerDigest)));
    document.add(std::move(facts));
    document.paragraph(Text(plusMinusNote()), ParagraphStyle::Small);
    if (writing.request.kind == Kind::Provenance && writing.selection.everything) {
        document.add(PageBreak{});
        document.paragraph(Text("Contents"), ParagraphStyle::Label);
        document.add(Contents{});
    }
}

}  // namespace app::report

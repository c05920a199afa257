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
        if (used.contains(state.id.text)) words << stateWords(state);
    return words;
}

QString counted(std::size_t n, const char* one, const char* many) {
    return QStringLiteral("%1 %2").arg(QString::number(n), QString::fromUtf8(n == 1 ? one : many));
}

// A page that opens from one number and prints alone has no title page.
void writeHead(Writing& writing) {
    Document& document = writing.document;
    const ArchiveInfo& archive = writing.index.reg.archive;
    document.paragraph(Text(QStringLiteral("%1 · %2 · %3")
                                .arg(reportName(writing.request.kind), shown(archive.title),
                                     dateWords(writing.request.at))),
                       ParagraphStyle::Label);
    Text about(archive.subject ? shown(*archive.subject) : QString());
    if (!writing.request.registerDigest.empty()) {
        about.add((about.empty() ? QString() : QStringLiteral(". ")) + QStringLiteral("Register "));
        about.digest(shown(writing.request.registerDigest));
    }
    document.paragraph(about, ParagraphStyle::Small);
}

Facts frontFacts(const Writing& writing) {
    const RegisterIndex& index = writing.index;
    const Selection& selection = writing.selection;
    Facts facts;
    const QStringList moments = momentsOf(writing);
    if (!moments.isEmpty())
        facts.add(QStringLiteral("Moment represented"), Text(moments.join(QStringLiteral("; "))));
    facts.add(QStringLiteral("What this is about"),
              Text("A modern re-creation. Nothing in this report makes new work original: sizes "
                   "are those of the original as far as the evidence reaches, and every place "
                   "where it does not reach is named."));
    facts.add(QStringLiteral("Written on"), Text(dateWords(writing.request.at)));
    if (!selection.words.isEmpty()) facts.add(QStringLiteral("Shows"), Text(selection.words));
    QStringList holds{counted(selection.dimensions.size(), "dimension", "dimensions"),
                      counted(selection.particulars.size(), "particular", "particulars")};
    if (selection.everything)
        holds << counted(index.reg.readings.size(), "reading", "readings")
              << counted(index.reg.sources.size(), "source", "sources");
    facts.add(QStringLiteral("Holds"), Text(holds.join(QStringLiteral(", "))));
    QStringList compilers;
    for (const Person& person : index.reg.people)
        if (person.role == Role::Compiler) compilers << shown(person.name);
    facts.add(QStringLiteral("Compiled by"), Text(compilers.join(QStringLiteral(", "))));
    if (!writing.request.registerDigest.empty())
        facts.add(QStringLiteral("Register digest"),
                  Text().digest(shown(writing.request.registerDigest)));
    return facts;
}

}  // namespace

void writeFront(Writing& writing) {
    if (writing.request.filter.on) return writeHead(writing);
    const ArchiveInfo& archive = writing.index.reg.archive;
    Document& document = writing.document;
    document.paragraph(Text(reportName(writing.request.kind)), ParagraphStyle::Subtitle);
    document.paragraph(Text(shown(archive.title)), ParagraphStyle::Title);
    if (archive.subject) document.paragraph(Text(shown(*archive.subject)), ParagraphStyle::Lead);
    document.add(frontFacts(writing));
    document.paragraph(Text(plusMinusNote()), ParagraphStyle::Small);
    if (writing.request.kind == Kind::Provenance && writing.selection.everything) {
        document.add(PageBreak{});
        document.paragraph(Text("Contents"), ParagraphStyle::Label);
        document.add(Contents{});
    }
}

}  // namespace app::report

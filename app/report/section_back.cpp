#include "app/report/sections.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

namespace {

void writePeople(Writing& writing) {
    Document& document = writing.document;
    document.heading(2, QStringLiteral("People"), QStringLiteral("people"));
    if (writing.index.reg.people.empty()) {
        document.paragraph(Text("Nobody is on record."));
        return;
    }
    Table table;
    table.columns = {{QStringLiteral("Name"), 3, Align::Left},
                     {QStringLiteral("Part in the work"), 3, Align::Left}};
    for (const Person& person : writing.index.reg.people)
        table.rows.push_back({{Text(shown(person.name)),
                               Text(person.role ? roleWords(*person.role) : QStringLiteral("–"))},
                              {},
                              false});
    document.add(std::move(table));
}

void writeIssued(Writing& writing) {
    if (writing.index.reg.issued.empty()) return;
    writing.document.heading(2, QStringLiteral("Reports handed out before"),
                             QStringLiteral("issued"));
    Table table;
    table.columns = {{QStringLiteral("Report"), 1, Align::Left},
                     {QStringLiteral("Kind"), 1.4, Align::Left},
                     {QStringLiteral("On"), 1.6, Align::Left},
                     {QStringLiteral("SHA-256 of the file"), 6, Align::Left}};
    for (const Issued& i : writing.index.reg.issued)
        table.rows.push_back({{Text(writing.index.code(i.id.text)), Text(shown(i.kind)),
                               Text(dateWords(i.at)), Text().digest(shown(i.sha256))},
                              {},
                              false});
    writing.document.add(std::move(table));
}

void writeGlossary(Writing& writing) {
    writing.document.heading(2, QStringLiteral("Glossary"), QStringLiteral("glossary"));
    Facts words;
    const auto word = [&](const char* name, const char* meaning) {
        words.add(QString::fromUtf8(name), Text(meaning));
    };
    word("Dimension (D)",
         "a number of the original: a length, angle, area, volume, mass, ratio or count");
    word("Particular (P)",
         "a fact that is no quantity: that a part existed, a timber, a fastener, a finish");
    word("Source (S)",
         "a drawing, photograph, text, surviving part, testimony, earlier rebuild or standard");
    word("Reading (R)", "one piece of evidence for one dimension or particular");
    word("Mark (M)", "a feature placed or fitted on a page");
    word("Scale (J)", "what turns the pixels of a page into inches");
    word("Relation (L)", "an equation between dimensions: a sum, a symmetry, a trade rule");
    word("Ruling (K)", "the value adopted for the build, with its reason");
    word("Departure (X)", "where the build differs from the original on purpose");
    word("Slip (V)", "a value handed to the shop on a date");
    word("As built (A)", "what the shop made; never evidence of the original");
    word("Origin", "sources that descend from one another: one witness");
    word("Guess", "a value chosen by us between bounds, with a reason");
    word("Thread", "all that one size hangs on, from sources to size");
    word("Grade",
         "how a size is held up: In hand, Figured, Taken off, Boxed in, Carried over, Our call, "
         "Blank");
    for (const Basis basis :
         {Basis::Scaled, Basis::Figured, Basis::Stated, Basis::Gauged, Basis::Told,
          Basis::Analogous, Basis::Interpolated, Basis::Inferred, Basis::Limit, Basis::Guessed})
        words.add(basisWords(basis), Text(basisSentence(basis)));
    writing.document.add(std::move(words));
}

}  // namespace

void writeBack(Writing& writing) {
    Document& document = writing.document;
    const Statement statement = writing.index.reg.archive.statement.value_or(Statement{});
    document.blocks.emplace_back(
        Heading{1, QStringLiteral("Keeping and checking"), QStringLiteral("back"), {}, {}, true});
    const auto say = [&](const char* title, const char* anchor,
                         const std::optional<std::string>& words, const char* missing) {
        document.heading(2, QString::fromUtf8(title), QString::fromUtf8(anchor));
        if (words)
            document.paragraph(Text(shown(*words)));
        else
            document.paragraph(Text().add(QString::fromUtf8(missing), Tone::Faint));
    };
    say("Marking of new work and labels", "labels", statement.labels,
        "The register does not say how new work is marked. It should be plain on close "
        "inspection.");
    say("Custody", "custody", statement.custody, "The register names no keeper of these records.");
    say("Deposit", "deposit", statement.deposit,
        "The register names no archive where they are lodged.");
    writePeople(writing);
    writeIssued(writing);
    document.heading(2, QStringLiteral("How to check the digests"), QStringLiteral("digests"));
    document.paragraph(Text(
        "A SHA-256 digest is a fingerprint of a file: change one bit and it changes. To check an "
        "original against this report, work it out with any tool (sha256sum FILE) and compare it "
        "with the list of sources. The program’s verify command does so for all originals of a "
        "register, and checks the journal of changes, in which each entry carries the digest of "
        "the one before: no entry can be altered or taken out unseen."));
    document.paragraph(Text(
        "To make this report again: open the register at the moment named on the front, and write "
        "the same kind with the same filter. The same register gives the same figures."));
    writeGlossary(writing);
}

}  // namespace app::report

#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>

namespace app::report {

using namespace evidence::record;

namespace {

bool isGuess(const Reading& r) {
    return r.basis == Basis::Guessed || r.basis == Basis::Assumed;
}

Row sizeRow(const RegisterIndex& index, const Dimension& d) {
    const auto* result = index.result(d.id.text);
    const auto interval = intervalOf(*result, d);
    Text name;
    name.link(index.label(d.id.text), index.anchor(d.id.text));
    if (d.critical.value_or(false)) name.add(QStringLiteral(" safety-critical"), Tone::Red);
    Row row;
    Text leans;
    int n = 0;
    for (const std::string& leaf : result->mustHave) {
        const Reading* reading = index.reading(leaf);
        if (reading != nullptr && !isGuess(*reading)) continue;
        if (++n > 4) break;
        leans.add((n == 1 ? QString() : QStringLiteral("; ")) + index.label(leaf));
    }
    if (n == 0) leans.add(QStringLiteral("see its thread"), Tone::Faint);
    row.cells = {name, Text(interval ? bothSystems(*interval) : QStringLiteral("–")),
                 Text(gradeSign(result->grade)), leans};
    return row;
}

// Sizes that could be worked out without our guesses, yet are moved by them.
void writeLeaning(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Table table;
    table.columns = {{QStringLiteral("Size"), 2.6, Align::Left},
                     {QStringLiteral("Value"), 2.4, Align::Left},
                     {QStringLiteral("Grade"), 0.6, Align::Left},
                     {QStringLiteral("Ours and borrowed, share of the doubt"), 1.4, Align::Right},
                     {QStringLiteral("Without any guess"), 1.8, Align::Left}};
    for (const Dimension* d : writing.selection.dimensions) {
        const auto* result = index.result(d->id.text);
        if (result == nullptr || result->restsOnGuess) continue;
        double share = 0;
        for (const auto* f : index.findingsOn(d->id.text))
            if (f->kind == "pulled-by-guess")
                for (const auto& [name, value] : f->numbers)
                    if (name == "share") share = value;
        if (share <= 0) continue;
        const auto interval = intervalOf(*result, *d);
        const auto& without = result->withoutGuess;
        Row row;
        row.cells = {Text().link(index.label(d->id.text), index.anchor(d->id.text)),
                     Text(interval ? bothSystems(*interval) : QStringLiteral("–")),
                     Text(gradeSign(result->grade)), Text(percent(share)),
                     Text(without && without->value
                              ? QStringLiteral("%1 %2 (u %3)")
                                    .arg(figureFor(*without->value, without->u.value_or(0)),
                                         unitSign(unitOf(*d)), rounded(without->u.value_or(0), 2))
                              : QStringLiteral("–"))};
        table.rows.push_back(std::move(row));
    }
    if (table.rows.empty()) return;
    writing.document.heading(2, QStringLiteral("Sizes that lean on a guess or a loan"),
                             QStringLiteral("leaning-sizes"));
    writing.document.paragraph(
        Text("Evidence gives these, and yet guesses or what is borrowed from relatives carry much "
             "of their doubt."));
    writing.document.add(std::move(table));
}

}  // namespace

void writeGuesses(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("Where conjecture begins"), QStringLiteral("guesses"));
    document.paragraph(Text(
        "Everything that rests on a guess: take our guesses away, and these sizes can no longer "
        "be worked out. A narrow ± does not help: it is then our own opinion that is narrow."));

    document.heading(2, QStringLiteral("Sizes that rest on a guess"),
                     QStringLiteral("guessed-sizes"));
    Table sizes;
    sizes.columns = {{QStringLiteral("Size"), 2.6, Align::Left},
                     {QStringLiteral("Value"), 2.4, Align::Left},
                     {QStringLiteral("Grade"), 0.6, Align::Left},
                     {QStringLiteral("Rests on"), 3, Align::Left}};
    bool critical = false;
    for (const Dimension* d : writing.selection.dimensions) {
        const auto* result = index.result(d->id.text);
        if (result == nullptr || !result->restsOnGuess) continue;
        critical = critical || d->critical.value_or(false);
        sizes.rows.push_back(sizeRow(index, *d));
    }
    if (sizes.rows.empty())
        document.paragraph(Text("No size rests on a guess."));
    else
        document.add(std::move(sizes));
    if (critical) document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);

    writeLeaning(writing);
    document.heading(2, QStringLiteral("The guesses themselves"), QStringLiteral("guess-register"));
    Table guesses;
    guesses.columns = {{QStringLiteral("Guess"), 2.2, Align::Left},
                       {QStringLiteral("Taken as"), 1.6, Align::Left},
                       {QStringLiteral("Why, and what would settle it"), 4, Align::Left},
                       {QStringLiteral("By, on"), 1.3, Align::Left},
                       {QStringLiteral("Age"), 0.9, Align::Left}};
    for (const Reading& r : index.reg.readings) {
        if (!isGuess(r) || r.setAside || !writing.selection.holds(r.of.text)) continue;
        const Dimension* d = index.dimension(r.of.text);
        Text name;
        name.add(index.code(r.id.text) + QStringLiteral(" of "));
        name.link(index.label(r.of.text), index.anchor(r.of.text));
        Text as;
        if (r.value) as.add(writtenWords(*r.value, r.unit, d));
        if (r.low && r.high)
            as.add((as.empty() ? QString() : QStringLiteral("; ")) +
                   QStringLiteral("between %1 and %2")
                       .arg(writtenWords(*r.low, r.unit, d), writtenWords(*r.high, r.unit, d)));
        if (r.halfWidth) as.add(QStringLiteral(", half-width %1").arg(rounded(*r.halfWidth, 2)));
        Text who(r.by ? index.personName(r.by->text) : QStringLiteral("not named"));
        if (r.on) who.add(QStringLiteral(", ") + dateWords(*r.on));
        const QString age = r.on ? ageWords(*r.on, writing.request.at) : QString();
        Row row;
        row.cells = {name, as,
                     r.reason ? Text(shown(*r.reason))
                              : Text().add(QStringLiteral("no reason given"), Tone::Red),
                     who, Text(age.isEmpty() ? QStringLiteral("not dated") : age)};
        guesses.rows.push_back(std::move(row));
    }
    // Known lengths without a source and a basis are guesses like any other.
    for (const Frame& frame : index.reg.frames) {
        if (frame.setAside || !writing.selection.everything) continue;
        for (std::size_t i = 0; i < frame.references.size(); ++i) {
            const KnownLength& length = frame.references[i].length;
            const bool guessed =
                length.basis ? *length.basis == Basis::Guessed || *length.basis == Basis::Assumed
                             : !length.source && !length.dimension;
            if (!guessed || frame.references[i].setAside) continue;
            Dimension inches;
            Text name;
            name.link(index.label(frame.id.text + "/" + std::to_string(i)),
                      index.anchor(frame.id.text));
            Row row;
            row.cells = {
                name,
                Text(length.value ? writtenWords(*length.value, length.unit, &inches) : QString()),
                length.reason ? Text(shown(*length.reason))
                              : Text().add(QStringLiteral("no reason given"), Tone::Red),
                Text("not named"), Text("not dated")};
            guesses.rows.push_back(std::move(row));
        }
    }
    if (guesses.rows.empty())
        document.paragraph(Text("No guess is on record."));
    else
        document.add(std::move(guesses));

    std::vector<const Particular*> open;
    for (const Particular* p : writing.selection.particulars) {
        const auto* result = index.particularResult(p->id.text);
        if (result == nullptr || result->grade == Grade::OurCall || result->grade == Grade::Blank)
            open.push_back(p);
    }
    if (open.empty()) return;
    document.heading(2, QStringLiteral("Facts that no evidence picks"),
                     QStringLiteral("guessed-facts"));
    List facts;
    for (const Particular* p : open) {
        const auto* result = index.particularResult(p->id.text);
        Text words;
        words.link(index.label(p->id.text), index.anchor(p->id.text));
        words.add(QStringLiteral(": ") + (result != nullptr && result->value
                                              ? shown(*result->value)
                                              : QStringLiteral("not known")));
        facts.items.push_back(std::move(words));
    }
    document.add(std::move(facts));
}

}  // namespace app::report

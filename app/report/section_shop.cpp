#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>

namespace app::report {

using namespace evidence::record;

namespace {

// What the shop is to make: the departure's value, else the ruled one, else none.
struct BuildValue {
    QString words;
    QString from;  ///< "ruled", "departure"
    bool known = false;
};

BuildValue buildValue(const RegisterIndex& index, const std::string& id, const Dimension* d) {
    const auto departures = RegisterIndex::on(index.reg.departures, id);
    if (!departures.empty())
        return {writtenWords(departures.back()->to, departures.back()->unit, d),
                QStringLiteral("departure from the original"), true};
    const auto rulings = index.rulingsOf(id);
    if (!rulings.empty())
        return {writtenWords(rulings.front()->value, rulings.front()->unit, d),
                QStringLiteral("ruled"), true};
    return {QStringLiteral("not ruled yet"), QString(), false};
}

Text allowed(const RegisterIndex& index, const Dimension& d) {
    const auto rulings = index.rulingsOf(d.id.text);
    if (!rulings.empty() && rulings.front()->tolerance)
        return Text(allowWords(*rulings.front()->tolerance, unitOf(d)));
    if (d.tolerance) return Text(allowWords(*d.tolerance, unitOf(d)));
    return Text().add(QStringLiteral("not stated"), Tone::Faint);
}

Text openPoints(const RegisterIndex& index, const std::string& id) {
    Text open;
    for (const auto* f : index.findingsOn(id)) {
        if (f->severity == evidence::judgement::Severity::Note || f->acknowledged) continue;
        if (!open.empty()) open.add(QStringLiteral("; "));
        open.add(findingName(f->kind),
                 f->severity == evidence::judgement::Severity::High ? Tone::Red : Tone::Ink);
    }
    return open;
}

}  // namespace

void writeShopSheets(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.paragraph(
        Text("These sheets are worth as much as their date. A value may have moved since: compare "
             "the "
             "date and the digest above with the register before cutting dear material."),
        ParagraphStyle::Caution);
    for (const ComponentGroup& group : byComponent(writing.selection)) {
        document.heading(1, group.name, index.anchor("component " + group.name.toStdString()));
        Table table;
        table.columns = {{QStringLiteral("Size"), 2.6, Align::Left},
                         {QStringLiteral("Make it"), 2, Align::Left},
                         {QStringLiteral("Allow"), 1.3, Align::Left},
                         {QStringLiteral("Original"), 2, Align::Left},
                         {QStringLiteral("Grade"), 0.7, Align::Left},
                         {QStringLiteral("Still open"), 2, Align::Left}};
        bool critical = false;
        for (const Dimension* d : group.dimensions) {
            const auto* result = index.result(d->id.text);
            const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, *d);
            const BuildValue build = buildValue(index, d->id.text, d);
            critical = critical || d->critical.value_or(false);
            Text name(index.label(d->id.text));
            if (d->critical.value_or(false))
                name.add(QStringLiteral(" safety-critical"), Tone::Red);
            Text make;
            if (build.known)
                make.bold(build.words).add(QStringLiteral("\n") + build.from, Tone::Faint);
            else
                make.add(build.words, Tone::Red);
            table.rows.push_back(
                {{name, make, allowed(index, *d),
                  Text(interval ? withDoubt(*interval, customaryUnit(measureOf(d->quantity)))
                                : QStringLiteral("–")),
                  Text(gradeSign(result == nullptr ? Grade::Blank : result->grade)),
                  openPoints(index, d->id.text)},
                 index.anchor(d->id.text),
                 false});
        }
        for (const Particular* p : group.particulars) {
            const auto* result = index.particularResult(p->id.text);
            const BuildValue build = buildValue(index, p->id.text, nullptr);
            Text make;
            build.known ? make.bold(build.words).add(QStringLiteral("\n") + build.from, Tone::Faint)
                        : make.add(build.words, Tone::Red);
            table.rows.push_back(
                {{Text(index.label(p->id.text)), make, Text(),
                  Text(result != nullptr && result->value ? shown(*result->value)
                                                          : QStringLiteral("–")),
                  Text(gradeSign(result == nullptr ? Grade::Blank : result->grade)),
                  openPoints(index, p->id.text)},
                 index.anchor(p->id.text),
                 false});
        }
        document.add(std::move(table));
        if (critical) document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
    }
}

void writeSlip(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    const Dimension* d =
        writing.selection.dimensions.empty() ? nullptr : writing.selection.dimensions.front();
    const std::string id =
        d != nullptr ? d->id.text : writing.selection.particulars.front()->id.text;
    const BuildValue build = buildValue(index, id, d);
    document.paragraph(Text(QStringLiteral("Slip to the shop · ") + dateWords(writing.request.at)),
                       ParagraphStyle::Subtitle);
    document.paragraph(Text(index.label(id)), ParagraphStyle::Lead);
    document.paragraph(build.known ? Text().bold(build.words) : Text().bold(build.words, Tone::Red),
                       ParagraphStyle::Title);
    Facts facts;
    Grade grade = Grade::Blank;
    if (d != nullptr) {
        facts.add(QStringLiteral("Allowed"), allowed(index, *d));
        if (const auto* result = index.result(id)) {
            grade = result->grade;
            if (const auto interval = intervalOf(*result, *d))
                facts.add(QStringLiteral("Original"), Text(bothSystems(*interval)));
        }
    } else if (const auto* result = index.particularResult(id)) {
        grade = result->grade;
    }
    facts.add(QStringLiteral("Comes from"), Text(build.from));
    facts.add(QStringLiteral("Grade"),
              Text()
                  .bold(gradeSign(grade) + QStringLiteral("  ") + gradeName(grade))
                  .add(QStringLiteral(". ") + gradeMeaning(grade)));
    const Text open = openPoints(index, id);
    facts.add(QStringLiteral("Still open"), open.empty() ? Text("nothing known") : open);
    facts.add(QStringLiteral("Register"),
              writing.request.registerDigest.empty()
                  ? Text()
                  : Text().digest(shown(writing.request.registerDigest)));
    document.add(std::move(facts));
    if (d != nullptr && d->critical.value_or(false))
        document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
}

}  // namespace app::report

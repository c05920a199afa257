#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>

namespace app::report {

using namespace evidence::record;

namespace {

// What the shop has: the size of the original, what was ruled, what was handed out, what was made.
void writeBuilt(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Table table;
    table.columns = {{QStringLiteral("Size or fact"), 2.6, Align::Left},
                     {QStringLiteral("Original"), 2, Align::Left},
                     {QStringLiteral("Intended"), 1.8, Align::Left},
                     {QStringLiteral("As built"), 1.8, Align::Left},
                     {QStringLiteral("By, on"), 1.4, Align::Left}};
    for (const AsBuilt& a : index.reg.asBuilt) {
        if (!writing.selection.holds(a.on.text)) continue;
        const Dimension* d = index.dimension(a.on.text);
        Text name;
        name.link(index.label(a.on.text), index.anchor(a.on.text));
        QString original = QStringLiteral("–");
        if (d != nullptr) {
            const auto* result = index.result(a.on.text);
            const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, *d);
            if (interval) original = withDoubt(*interval, customaryUnit(measureOf(d->quantity)));
        } else if (const auto* fact = index.particularResult(a.on.text);
                   fact != nullptr && fact->value) {
            original = shown(*fact->value);
        }
        QString intended = QStringLiteral("–");
        const auto rulings = index.rulingsOf(a.on.text);
        if (!rulings.empty())
            intended = writtenWords(rulings.front()->value, rulings.front()->unit, d);
        const auto departures = RegisterIndex::on(index.reg.departures, a.on.text);
        if (!departures.empty())
            intended = writtenWords(departures.back()->to, departures.back()->unit, d) +
                       QStringLiteral(" (departure)");
        table.rows.push_back(
            {{name, Text(original), Text(intended), Text(writtenWords(a.value, a.unit, d)),
              Text(index.personName(a.by.text) + QStringLiteral(", ") + dateWords(a.at))},
             {},
             false});
    }
    writing.document.heading(2, QStringLiteral("As built"), QStringLiteral("as-built"));
    if (table.rows.empty())
        writing.document.paragraph(Text("Nothing is recorded as built yet."));
    else
        writing.document.add(std::move(table));
}

void writeSlips(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Table table;
    table.columns = {{QStringLiteral("Size"), 2.6, Align::Left},
                     {QStringLiteral("Value handed out"), 2, Align::Left},
                     {QStringLiteral("By, on"), 1.8, Align::Left},
                     {QStringLiteral("Note"), 2.6, Align::Left},
                     {QStringLiteral("Since then"), 2, Align::Left}};
    for (const Slip& s : index.reg.slips) {
        if (!writing.selection.holds(s.on.text)) continue;
        const Dimension* d = index.dimension(s.on.text);
        Text name;
        name.link(index.label(s.on.text), index.anchor(s.on.text));
        Text value(writtenWords(s.value, s.unit, d));
        if (s.tolerance && d != nullptr)
            value.add(QStringLiteral(", ") + allowWords(*s.tolerance, unitOf(*d)));
        Text since;
        for (const auto* f : index.findingsOn(s.on.text)) {
            if (f->kind == "slip-moved")
                since.add(QStringLiteral("has moved: stop and ask. "), Tone::Red);
            if (f->kind == "released-early")
                since.add(QStringLiteral("let out before its ruling. "));
        }
        if (since.empty()) since.add(QStringLiteral("unchanged"), Tone::Faint);
        table.rows.push_back(
            {{name, value,
              Text(index.personName(s.by.text) + QStringLiteral(", ") + dateWords(s.at)),
              Text(shown(s.note)), since},
             index.anchor(s.id.text),
             false});
    }
    writing.document.heading(2, QStringLiteral("Slips: values handed to the shop"),
                             QStringLiteral("slips"));
    if (table.rows.empty())
        writing.document.paragraph(Text("No value has been handed to the shop."));
    else
        writing.document.add(std::move(table));
}

}  // namespace

void writeMade(Writing& writing) {
    writing.document.heading(1, QStringLiteral("Handed out and made"), QStringLiteral("made"));
    writing.document.paragraph(
        Text("What the shop was given and what it made. What was made is never evidence of the "
             "original."));
    writeSlips(writing);
    writeBuilt(writing);
}

}  // namespace app::report

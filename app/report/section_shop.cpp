#include "app/report/build_value.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>

namespace app::report {

using namespace evidence::record;

namespace {

Text makeWords(const BuildValue& build) {
    const bool decided =
        build.from == BuildValue::From::Ruling || build.from == BuildValue::From::Departure;
    Text words;
    words.bold(build.make);
    if (decided && !build.beside.isEmpty())
        words.add(QStringLiteral("\n") + build.beside, Tone::Faint);
    words.add(QStringLiteral("\n") + build.said, decided ? Tone::Faint : Tone::Red);
    return words;
}

Text nameWords(const RegisterIndex& index, const std::string& id, bool critical) {
    Text name(index.label(id));
    if (critical) name.add(QStringLiteral("\nsafety-critical"), Tone::Red);
    return name;
}

Text stillOpen(const RegisterIndex& index, const std::string& id) {
    Text words;
    const QString leans = leansOnGuess(index, id);
    if (!leans.isEmpty()) words.bold(leans, Tone::Red);
    const Text open = openPoints(index, id);
    if (!leans.isEmpty() && !open.empty()) words.add(QStringLiteral("\n"));
    return words.append(open);
}

Row dimensionRow(const RegisterIndex& index, const Dimension& d) {
    const std::string& id = d.id.text;
    const auto* result = index.result(id);
    const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, d);
    const QString allow = allowance(index, id);
    return {
        {nameWords(index, id, d.critical.value_or(false)), makeWords(buildValue(index, id)),
         allow.isEmpty() ? Text().add(QStringLiteral("not stated"), Tone::Faint) : Text(allow),
         Text(interval ? withDoubt(*interval, customaryUnit(measureOf(d.quantity)))
                       : QStringLiteral("–")),
         Text(gradeSign(result == nullptr ? Grade::Blank : result->grade)), stillOpen(index, id)},
        index.anchor(id),
        false};
}

Row particularRow(const RegisterIndex& index, const Particular& p) {
    const std::string& id = p.id.text;
    const auto* result = index.particularResult(id);
    return {
        {nameWords(index, id, false), makeWords(buildValue(index, id)), Text(),
         Text(result != nullptr && result->value ? shown(*result->value) : QStringLiteral("–")),
         Text(gradeSign(result == nullptr ? Grade::Blank : result->grade)), stillOpen(index, id)},
        index.anchor(id),
        false};
}

}  // namespace

void writeShopSheets(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.paragraph(
        Text("These sheets are worth as much as their date. A value may have moved since: compare "
             "the date and the digest above with the register before cutting dear material."),
        ParagraphStyle::Caution);
    for (const ComponentGroup& group : byComponent(writing.selection)) {
        document.heading(1, group.name, index.anchor("component " + group.name.toStdString()));
        const bool critical =
            std::any_of(group.dimensions.begin(), group.dimensions.end(),
                        [](const Dimension* d) { return d->critical.value_or(false); });
        if (critical) document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
        Table table;
        table.columns = {{QStringLiteral("Size"), 2.4, Align::Left},
                         {QStringLiteral("Make it"), 2.6, Align::Left},
                         {QStringLiteral("Allow"), 1.2, Align::Left},
                         {QStringLiteral("Original"), 1.8, Align::Left},
                         {QStringLiteral("Grade"), 0.6, Align::Left},
                         {QStringLiteral("Still open"), 2.4, Align::Left}};
        for (const Dimension* d : group.dimensions) table.rows.push_back(dimensionRow(index, *d));
        for (const Particular* p : group.particulars)
            table.rows.push_back(particularRow(index, *p));
        document.add(std::move(table));
    }
}

}  // namespace app::report

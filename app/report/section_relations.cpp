#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeRelations(Writing& writing) {
    const RegisterIndex& index = writing.index;
    if (!writing.selection.everything || index.reg.relations.empty()) return;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("Relations between sizes"), QStringLiteral("relations"));
    document.paragraph(Text(
        "Sums, symmetries and rules that tie sizes together. What only checks pulls nothing; its "
        "misclosure says how far both sides are apart without it."));
    Table table;
    table.columns = {{QStringLiteral("Relation"), 3.6, Align::Left},
                     {QStringLiteral("Basis and reason"), 2.8, Align::Left},
                     {QStringLiteral("Used to"), 0.8, Align::Left},
                     {QStringLiteral("Misclosure"), 1, Align::Right},
                     {QStringLiteral("in its own spreads"), 0.9, Align::Right}};
    for (const Relation& l : index.reg.relations) {
        const auto* result = index.relationResult(l.id.text);
        Text why(l.basis ? basisWords(*l.basis) : QStringLiteral("assumed"));
        if (l.reason) why.add(QStringLiteral(": ") + shown(*l.reason));
        if (l.source)
            why.add(QStringLiteral(", "))
                .link(index.code(l.source->text), index.anchor(l.source->text));
        if (l.setAside) why.add(QStringLiteral(" Set aside: ") + shown(*l.setAside), Tone::Red);
        QString use = QStringLiteral("adjust");
        if (l.use) {
            if (const auto* plain = std::get_if<Use>(&*l.use))
                use = *plain == Use::Check ? QStringLiteral("check") : QStringLiteral("adjust");
            else
                use = QStringLiteral("infer ") + index.code(std::get<Infer>(*l.use).infer.text);
        }
        const auto number = [](const std::optional<double>& x) {
            return Text(x ? rounded(*x, 2) : QStringLiteral("–"));
        };
        Row row;
        row.anchor = index.anchor(l.id.text);
        row.faint = l.setAside.has_value();
        Text formula(index.code(l.id.text) + QStringLiteral("  ") + formulaWords(index, l.formula));
        if (result != nullptr && !result->holds)
            formula.add(QStringLiteral(" does not hold"), Tone::Red);
        row.cells = {formula, why, Text(use),
                     result == nullptr ? Text("–") : number(result->misclosure),
                     result == nullptr ? Text("–") : number(result->w)};
        table.rows.push_back(std::move(row));
    }
    document.add(std::move(table));
}

}  // namespace app::report

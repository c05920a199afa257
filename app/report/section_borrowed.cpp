#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeBorrowed(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("Borrowed from relatives"), QStringLiteral("borrowed"));
    document.paragraph(Text(
        "What comes from a sister or contemporary design, an earlier rebuild, trade practice or "
        "a handbook. It is listed apart because it is no evidence of this design."));
    Table table;
    table.columns = {{QStringLiteral("Size or fact"), 2.4, Align::Left},
                     {QStringLiteral("Borrowed"), 2.2, Align::Left},
                     {QStringLiteral("From"), 2.6, Align::Left},
                     {QStringLiteral("Why"), 3, Align::Left}};
    for (const Reading& r : index.reg.readings) {
        const Source* source = index.sourceOfReading(r);
        const bool relative = r.basis == Basis::Analogous || r.basis == Basis::TradeRule ||
                              (source != nullptr && source->kind == SourceKind::Rebuild);
        if (!relative || r.setAside || !writing.selection.holds(r.of.text)) continue;
        Text name;
        name.link(index.label(r.of.text), index.anchor(r.of.text));
        Text what(basisWords(r.basis));
        if (r.value)
            what.add(QStringLiteral(": ") +
                     writtenWords(*r.value, r.unit, index.dimension(r.of.text)));
        table.rows.push_back(
            {{name, what,
              source == nullptr ? Text().add(QStringLiteral("no source named"), Tone::Red)
                                : sourceWords(index, *source),
              Text(r.reason ? shown(*r.reason) : shown(r.excerpt))},
             {},
             false});
    }
    for (const Relation& l : index.reg.relations) {
        if (l.setAside || l.basis != Basis::TradeRule || !writing.selection.everything) continue;
        const Source* source = l.source ? index.source(l.source->text) : nullptr;
        table.rows.push_back(
            {{Text(formulaWords(index, l.formula)), Text("trade rule"),
              source == nullptr ? Text().add(QStringLiteral("no source named"), Tone::Red)
                                : sourceWords(index, *source),
              Text(shown(l.reason))},
             {},
             false});
    }
    if (table.rows.empty())
        document.paragraph(Text("Nothing is borrowed."));
    else
        document.add(std::move(table));
}

}  // namespace app::report

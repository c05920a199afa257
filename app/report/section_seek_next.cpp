#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeSeekNext(Writing& writing) {
    const RegisterIndex& index = writing.index;
    if (!writing.selection.everything || index.analysis.seekNext.empty()) return;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("What would help most"), QStringLiteral("seek-next"));
    document.paragraph(Text(
        "Evidence worth looking for, the most useful first: what one more measurement would take "
        "off the doubt of the sizes that matter."));
    Table table;
    table.columns = {{QStringLiteral("Look for"), 3.6, Align::Left},
                     {QStringLiteral("How"), 1.8, Align::Left},
                     {QStringLiteral("Helps"), 4, Align::Left}};
    for (std::size_t i = 0; i < index.analysis.seekNext.size() && i < 12; ++i) {
        const auto& next = index.analysis.seekNext[i];
        Text name;
        name.link(index.label(next.dimension.text), index.anchor(next.dimension.text));
        const auto basis = byName<Basis>(next.by);
        Text helps;
        for (std::size_t k = 0; k < next.helps.size() && k < 6; ++k) {
            if (k > 0) helps.add(QStringLiteral(", "));
            helps.link(index.code(next.helps[k].text), index.anchor(next.helps[k].text));
        }
        if (next.helps.size() > 6)
            helps.add(QStringLiteral(" and %1 more").arg(next.helps.size() - 6));
        table.rows.push_back(
            {{name, Text(basis ? basisWords(*basis) : shown(next.by)), helps}, {}, false});
    }
    document.add(std::move(table));
}

}  // namespace app::report

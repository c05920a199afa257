#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

namespace {

Text joined(const RegisterIndex& index, const std::vector<DimensionId>& dimensions) {
    Text out;
    for (std::size_t k = 0; k < dimensions.size() && k < 6; ++k) {
        if (k > 0) out.add(QStringLiteral(", "));
        out.link(index.code(dimensions[k].text), index.anchor(dimensions[k].text));
    }
    if (dimensions.size() > 6) out.add(QStringLiteral(" and %1 more").arg(dimensions.size() - 6));
    return out;
}

void writeWhatToLookFor(Writing& writing) {
    const RegisterIndex& index = writing.index;
    if (index.analysis.seekNext.empty()) return;
    writing.document.paragraph(Text(
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
        table.rows.push_back(
            {{name, Text(basis ? basisWords(*basis) : shown(next.by)), joined(index, next.helps)},
             {},
             false});
    }
    writing.document.add(std::move(table));
}

void writeWhatWouldHurt(Writing& writing) {
    const RegisterIndex& index = writing.index;
    if (index.analysis.hurtsMost.empty()) return;
    writing.document.heading(2, QStringLiteral("If one reading were wrong"),
                             QStringLiteral("hurts-most"));
    writing.document.paragraph(Text(
        "Readings that would hurt most if they were wrong by as much as would not be noticed, the "
        "worst first, with the size they would take farthest beyond what is wanted: look at these "
        "once more."));
    Table table;
    table.columns = {{QStringLiteral("Reading"), 4.4, Align::Left},
                     {QStringLiteral("Would show an error"), 2, Align::Left},
                     {QStringLiteral("Would move"), 3, Align::Left}};
    for (std::size_t i = 0; i < index.analysis.hurtsMost.size() && i < 8; ++i) {
        const auto& hurt = index.analysis.hurtsMost[i];
        const auto* reading = index.reading(hurt.reading.text);
        const auto* dimension = index.dimension(hurt.dimension.text);
        if (reading == nullptr || dimension == nullptr) continue;
        Text name;
        name.link(index.label(reading->of.text), index.anchor(reading->of.text));
        name.add(QStringLiteral(", ") + basisWords(reading->basis));
        Text moves;
        moves.link(index.code(hurt.dimension.text), index.anchor(hurt.dimension.text));
        moves.add(QStringLiteral(" by ") + rounded(hurt.moves, 2) + QStringLiteral(" ") +
                  unitSign(unitOf(*dimension)));
        table.rows.push_back(
            {{name, Text(hurt.checked ? "only beyond the others' doubt" : "nothing"), moves},
             {},
             false});
    }
    writing.document.add(std::move(table));
}

}  // namespace

void writeSeekNext(Writing& writing) {
    const auto& analysis = writing.index.analysis;
    if (!writing.selection.everything || (analysis.seekNext.empty() && analysis.hurtsMost.empty()))
        return;
    writing.document.heading(1, QStringLiteral("What would help most"),
                             QStringLiteral("seek-next"));
    writeWhatToLookFor(writing);
    writeWhatWouldHurt(writing);
}

}  // namespace app::report

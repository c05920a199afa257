#include "app/report/decision_words.h"
#include "app/report/reading_words.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeParticular(Writing& writing, const Particular& p) {
    const RegisterIndex& index = writing.index;
    const auto* result = index.particularResult(p.id.text);
    Document& document = writing.document;
    Text aside;
    if (result != nullptr && result->value) aside.bold(shown(*result->value));
    document.blocks.emplace_back(Heading{
        3, index.code(p.id.text) + QStringLiteral("  ") + shown(p.name), index.anchor(p.id.text),
        result == nullptr ? Grade::Blank : result->grade, aside, false});
    Facts facts;
    if (result != nullptr && result->value)
        facts.add(QStringLiteral("What it was"), Text().bold(shown(*result->value)));
    else
        facts.add(QStringLiteral("What it was"),
                  Text().add(QStringLiteral("not known"), Tone::Red));
    if (result != nullptr) {
        Text grade;
        grade.bold(gradeSign(result->grade) + QStringLiteral("  ") + gradeName(result->grade));
        if (!result->gradeWhy.empty()) grade.add(QStringLiteral(". ") + shown(result->gradeWhy));
        facts.add(QStringLiteral("Grade"), grade);
        if (!result->agree)
            facts.add(QStringLiteral("Sources"), Text().add(QStringLiteral("disagree"), Tone::Red));
        facts.add(QStringLiteral("Witnesses"),
                  Text(result->origins == 1
                           ? QStringLiteral("one independent origin")
                           : QStringLiteral("%1 independent origins").arg(result->origins)));
    }
    Text about(p.kind ? particularKindWords(*p.kind) : QStringLiteral("fact"));
    if (p.state)
        if (const State* state = index.state(p.state->text))
            about.add(QStringLiteral(", ") + stateWords(*state));
    if (p.note) about.add(QStringLiteral(". ") + shown(*p.note));
    facts.add(QStringLiteral("Speaks of"), about);
    document.add(std::move(facts));
    writeRulings(writing, p.id.text, nullptr);
    writeDeparturesOf(writing, p.id.text, nullptr);
    writeFindingsOn(writing, p.id.text);
    const auto readings = index.readingsOf(p.id.text);
    if (!readings.empty()) {
        Table table;
        table.columns = {{QStringLiteral("Reading"), 3, Align::Left},
                         {QStringLiteral("Says"), 1.6, Align::Left},
                         {QStringLiteral("More"), 4, Align::Left}};
        Figures pictures;
        for (const Reading* r : readings) {
            Row row;
            row.anchor = index.anchor(r->id.text);
            row.faint = r->setAside.has_value();
            row.cells = {readingTitle(index, *r),
                         Text(r->value ? writtenWords(*r->value, r->unit, nullptr) : QString()),
                         readingDetail(index, *r, nullptr)};
            table.rows.push_back(std::move(row));
            if (r->setAside) continue;
            for (Figure& picture : readingPictures(writing, *r, index.code(p.id.text)))
                pictures.items.push_back(std::move(picture));
        }
        document.add(std::move(table));
        if (!pictures.items.empty()) document.add(std::move(pictures));
    }
    writeWhatFollowed(writing, p.id.text, nullptr);
}

}  // namespace app::report

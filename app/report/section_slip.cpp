#include "app/report/build_value.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

namespace {

Facts slipFacts(const Writing& writing, const std::string& id, const BuildValue& build) {
    const RegisterIndex& index = writing.index;
    Facts facts;
    facts.add(QStringLiteral("Comes from"), Text(build.said));
    Grade grade = Grade::Blank;
    if (const Dimension* d = index.dimension(id)) {
        if (const auto* result = index.result(id)) {
            grade = result->grade;
            if (const auto interval = intervalOf(*result, *d))
                facts.add(QStringLiteral("Original"), Text(bothSystems(*interval)));
        }
    } else if (const auto* fact = index.particularResult(id)) {
        grade = fact->grade;
        if (fact->value) facts.add(QStringLiteral("Original"), Text(shown(*fact->value)));
    }
    facts.add(QStringLiteral("Grade"),
              Text()
                  .bold(gradeSign(grade) + QStringLiteral("  ") + gradeName(grade))
                  .add(QStringLiteral(". ") + gradeMeaning(grade)));
    const Text open = openPoints(index, id);
    facts.add(QStringLiteral("Still open"), open.empty() ? Text("nothing known") : open);
    for (const Slip* s : RegisterIndex::on(index.reg.slips, id)) {
        Text out(writtenWords(s->value, s->unit, index.dimension(id)));
        out.add(QStringLiteral(", by %1, %2").arg(index.personName(s->by.text), dateWords(s->at)));
        facts.add(QStringLiteral("Already out: ") + index.code(s->id.text), out);
    }
    if (!writing.request.registerDigest.empty())
        facts.add(QStringLiteral("Register"), Text().digest(shown(writing.request.registerDigest)));
    return facts;
}

}  // namespace

void writeSlip(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    const Dimension* d =
        writing.selection.dimensions.empty() ? nullptr : writing.selection.dimensions.front();
    const std::string id =
        d != nullptr ? d->id.text : writing.selection.particulars.front()->id.text;
    const BuildValue build = buildValue(index, id);
    const bool decided =
        build.from == BuildValue::From::Ruling || build.from == BuildValue::From::Departure;
    document.paragraph(Text(QStringLiteral("Slip to the shop · ") + dateWords(writing.request.at)),
                       ParagraphStyle::Label);
    document.paragraph(Text(index.label(id)), ParagraphStyle::Lead);
    const QString leans = leansOnGuess(index, id);
    if (!leans.isEmpty())
        document.paragraph(Text().bold(leans, Tone::Red), ParagraphStyle::Caution);
    if (!decided)
        document.paragraph(Text().bold(QStringLiteral("Not ruled yet."), Tone::Red),
                           ParagraphStyle::Caution);
    document.paragraph(Text().bold(build.make, decided ? Tone::Ink : Tone::Red),
                       ParagraphStyle::Title);
    Text allow(allowance(index, id));
    if (d != nullptr && allow.empty()) allow.add(QStringLiteral("what to allow is not stated"));
    if (decided && !build.beside.isEmpty()) {
        if (!allow.empty()) allow.add(QStringLiteral("   ·   "));
        allow.add(build.beside, Tone::Faint);
    }
    document.paragraph(allow, ParagraphStyle::Lead);
    if (d != nullptr && d->critical.value_or(false))
        document.paragraph(Text(cautionWords()), ParagraphStyle::Caution);
    document.add(slipFacts(writing, id, build));
}

}  // namespace app::report

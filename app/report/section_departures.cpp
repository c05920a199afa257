#include "app/report/decision_words.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeDepartures(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("Departures"), QStringLiteral("departures"));
    document.paragraph(
        Text("Where the build deliberately differs from the original. The original size stays on "
             "record and keeps its grade."));
    bool any = false;
    bool critical = false;
    for (const Departure& x : index.reg.departures) {
        if (!writing.selection.everything && !writing.selection.holds(x.on.text)) continue;
        any = true;
        const Dimension* d = index.dimension(x.on.text);
        critical = critical || (d != nullptr && d->critical.value_or(false)) ||
                   x.why == DepartureWhy::Safety || x.why == DepartureWhy::Law;
        document.blocks.emplace_back(
            Heading{3,
                    index.code(x.id.text) + QStringLiteral("  ") + index.label(x.on.text),
                    index.anchor(x.id.text),
                    {},
                    Text(whyWords(x.why)),
                    false});
        Facts facts;
        Text original;
        original.link(index.label(x.on.text), index.anchor(x.on.text));
        if (d != nullptr) {
            const auto* result = index.result(x.on.text);
            const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, *d);
            if (interval)
                original.add(QStringLiteral(": ") + bothSystems(*interval) +
                             QStringLiteral(", grade ") + gradeLetter(result->grade));
        } else if (const auto* fact = index.particularResult(x.on.text);
                   fact != nullptr && fact->value) {
            original.add(QStringLiteral(": ") + shown(*fact->value) + QStringLiteral(", grade ") +
                         gradeLetter(fact->grade));
        }
        facts.add(QStringLiteral("Original"), original);
        document.add(std::move(facts));
        document.add(departureFacts(index, x));
    }
    if (!any) document.paragraph(Text("No departure is on record."));
    if (critical)
        document.paragraph(
            Text("Departures for safety or law record what was decided and by whom. Strength and "
                 "fitness for use are for licensed practice and local rules."),
            ParagraphStyle::Caution);
}

}  // namespace app::report

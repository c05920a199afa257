#include "app/report/reading_words.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <cmath>
#include <set>

namespace app::report {

using namespace evidence::record;

namespace {

void writeScale(Writing& writing, const Frame& frame) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    const Source* source = index.sourceOfFile(frame.file.text);
    QString title = QStringLiteral("Scale ") + index.code(frame.id.text);
    if (source != nullptr) title += QStringLiteral(" on ") + index.code(source->id.text);
    document.heading(2, title, index.anchor(frame.id.text));
    Facts facts;
    if (source != nullptr) facts.add(QStringLiteral("Page of"), sourceWords(index, *source));
    facts.add(QStringLiteral("Kind"), Text(scaleWords(frame.model)));
    const auto* result = index.frameResult(frame.id.text);
    if (result != nullptr && result->inchesPerPixel) {
        Text words(QStringLiteral("one pixel is %1 in").arg(rounded(*result->inchesPerPixel, 6)));
        if (result->uRelative)
            words.add(
                QStringLiteral("; relative u %1 %").arg(rounded(*result->uRelative * 100, 2)));
        facts.add(QStringLiteral("Found"), words);
    } else if (result != nullptr && result->uRelative) {
        facts.add(
            QStringLiteral("Found"),
            Text(QStringLiteral("relative u %1 %").arg(rounded(*result->uRelative * 100, 2))));
    }
    if (result != nullptr && result->rmsPx)
        facts.add(QStringLiteral("Fit of its marks"),
                  Text(QStringLiteral("%1 px root mean square").arg(rounded(*result->rmsPx, 2))));
    if (frame.print) {
        Text words;
        if (frame.print->dpi)
            words.add(
                QStringLiteral("scanned at %1 pixels an inch").arg(rounded(*frame.print->dpi, 6)));
        if (frame.print->drawnScale)
            words.add((words.empty() ? QString() : QStringLiteral(", ")) +
                      QStringLiteral("drawn at 1:%1").arg(rounded(*frame.print->drawnScale, 6)));
        facts.add(QStringLiteral("Print"), words);
    }
    if (frame.parallelWithin)
        facts.add(
            QStringLiteral("Plane to film"),
            Text(QStringLiteral("parallel within %1° (u)").arg(rounded(*frame.parallelWithin, 2))));
    if (frame.setAside)
        facts.add(QStringLiteral("Set aside"), Text().add(shown(*frame.setAside), Tone::Red));
    for (const auto* finding : index.findingsOn(frame.id.text))
        facts.add(QStringLiteral("Note"), Text().add(shown(finding->text), Tone::Red));
    document.add(std::move(facts));
    if (!frame.references.empty()) {
        Table table;
        table.columns = {{QStringLiteral("Known length"), 5, Align::Left},
                         {QStringLiteral("Used to"), 0.9, Align::Left},
                         {QStringLiteral("Misfit, in"), 1, Align::Right},
                         {QStringLiteral("in its spreads"), 1, Align::Right}};
        for (std::size_t i = 0; i < frame.references.size(); ++i) {
            const Reference& reference = frame.references[i];
            Row row;
            Text words(QStringLiteral("%1. ").arg(i + 1));
            words.append(knownLengthWords(index, reference.length));
            if (reference.setAside)
                words.add(QStringLiteral(" Set aside: ") + shown(*reference.setAside), Tone::Red);
            row.faint = reference.setAside.has_value();
            const bool checks = reference.use == Use::Check;
            QString misfit = QStringLiteral("–");
            QString own = QStringLiteral("–");
            if (result != nullptr && i < result->references.size()) {
                if (result->references[i].residual)
                    misfit = rounded(*result->references[i].residual, 2);
                if (result->references[i].w) own = rounded(*result->references[i].w, 2);
            }
            row.cells = {words, Text(checks ? "check" : "set it"), Text(misfit), Text(own)};
            table.rows.push_back(std::move(row));
        }
        document.add(std::move(table));
    }
    std::vector<Figure> pictures = scalePictures(writing, frame);
    if (!pictures.empty()) document.add(Figures{std::move(pictures)});
}

}  // namespace

void writeScales(Writing& writing) {
    std::set<std::string> used;
    for (const Reading& r : writing.index.reg.readings)
        if (r.frame && writing.selection.holds(r.of.text)) used.insert(r.frame->text);
    const bool everything = writing.selection.everything;
    if (used.empty() && (!everything || writing.index.reg.frames.empty())) return;
    writing.document.blocks.emplace_back(
        Heading{1, QStringLiteral("Scales"), QStringLiteral("scales"), {}, {}, true});
    writing.document.paragraph(Text(
        "How the pixels of a page became inches: the known lengths, and how well they agree."));
    for (const Frame& frame : writing.index.reg.frames)
        if (everything || used.contains(frame.id.text)) writeScale(writing, frame);
}

}  // namespace app::report

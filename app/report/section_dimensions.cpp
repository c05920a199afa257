#include "app/report/caution.h"
#include "app/report/decision_words.h"
#include "app/report/figure/interval_figure.h"
#include "app/report/figure/thread_figure.h"
#include "app/report/figure/thread_on_paper.h"
#include "app/report/reading_plot.h"
#include "app/report/reading_words.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"
#include "evidence-core/judgement/thread.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;
namespace quantity = evidence::quantity;

namespace {

constexpr double kPageWide = 486;       // points between the margins of a Letter page
constexpr std::size_t kThreadRows = 6;  // boxes of a thread above each other: a third of a page

const ReadingResult* resultOf(const DimensionResult* result, const Reading& reading) {
    if (result == nullptr) return nullptr;
    for (const ReadingResult& r : result->readings)
        if (r.id == reading.id) return &r;
    return nullptr;
}

figure::FigureStyle figureStyle() {
    figure::FigureStyle style;
    style.textSize = 7;
    style.titleLines = 3;
    style.lane = 2.2;
    style.onPaper = true;
    style.palette.paper = QColor(Qt::white);
    return style;
}

Text gradeWords(const RegisterIndex& index, const DimensionResult& result) {
    Text words;
    words.bold(gradeSign(result.grade) + QStringLiteral("  ") + gradeName(result.grade));
    words.add(QStringLiteral(". ") + gradeMeaning(result.grade));
    if (!result.gradeWhy.empty()) words.add(QStringLiteral(" ") + shown(result.gradeWhy));
    if (!result.raiseBy.empty()) words.add(QStringLiteral(" ") + shown(result.raiseBy));
    if (!result.mustHave.empty()) {
        words.add(QStringLiteral(" Cannot do without: "));
        for (std::size_t i = 0; i < result.mustHave.size() && i < 6; ++i)
            words.add((i == 0 ? QString() : QStringLiteral(", ")) +
                      index.label(result.mustHave[i]));
        if (result.mustHave.size() > 6)
            words.add(QStringLiteral(" and %1 more").arg(result.mustHave.size() - 6));
        words.add(QStringLiteral("."));
    }
    return words;
}

void writeValueFacts(Writing& writing, const Dimension& d, const DimensionResult* result) {
    const RegisterIndex& index = writing.index;
    Facts facts;
    const int smallest = index.reg.archive.smallestFraction.value_or(32);
    const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, d);
    if (interval) {
        Text value;
        value.bold(bothSystems(*interval));
        if (quantity::measureOf(interval->unit) == quantity::Measure::Length) {
            const Fraction fraction = earnedFraction(*interval, smallest);
            value.add(QStringLiteral("; as the shop reads it ") + fraction.text +
                      QStringLiteral(" (") + fraction.note + u')');
        }
        facts.add(QStringLiteral("Size of the original"), value);
        const quantity::Measure measure = quantity::measureOf(interval->unit);
        Text range(between(*interval, customaryUnit(measure)));
        if (customaryUnit(measure) != metricUnit(measure))
            range.add(QStringLiteral(" · ") + between(*interval, metricUnit(measure)));
        if (result != nullptr && result->draws > 0)
            range.add(QStringLiteral(", counted from %1 draws").arg(result->draws));
        facts.add(QStringLiteral("95 % interval"), range);
    } else {
        facts.add(
            QStringLiteral("Size of the original"),
            Text().add(QStringLiteral("cannot be worked out from what is on record"), Tone::Red));
    }
    if (result != nullptr) {
        facts.add(QStringLiteral("Grade"), gradeWords(index, *result));
        Text rests;
        if (result->restsOnGuess) {
            rests.bold(QStringLiteral("Rests on a guess: "), Tone::Red)
                .add(QStringLiteral("without our guesses it cannot be worked out."));
        } else if (result->guessPull > 0.005) {
            rests.add(
                QStringLiteral("Guesses carry %1 of its doubt.").arg(percent(result->guessPull)));
            if (result->withoutGuess && result->withoutGuess->value)
                rests.add(QStringLiteral(" Without any guess: %1 %2 (u %3).")
                              .arg(figureFor(*result->withoutGuess->value,
                                             result->withoutGuess->u.value_or(0)),
                                   unitSign(interval ? interval->unit : unitOf(d)),
                                   rounded(result->withoutGuess->u.value_or(0), 2)));
        }
        facts.add(QStringLiteral("Guesses"), rests);
        facts.add(QStringLiteral("Witnesses"),
                  Text(result->origins == 1
                           ? QStringLiteral("one independent origin")
                           : QStringLiteral("%1 independent origins").arg(result->origins)));
    }
    if (d.tolerance) facts.add(QStringLiteral("Wanted"), Text(allowWords(*d.tolerance, unitOf(d))));
    Text about(quantityWords(d.quantity));
    if (d.state)
        if (const State* state = index.state(d.state->text))
            about.add(QStringLiteral(", ") + stateWords(*state));
    if (d.note) about.add(QStringLiteral(". ") + shown(*d.note));
    facts.add(QStringLiteral("Speaks of"), about);
    writing.document.add(std::move(facts));
}

Table readingsTable(const RegisterIndex& index, const Dimension& d, const DimensionResult* result,
                    const std::vector<const Reading*>& readings) {
    const quantity::Unit unit = unitOf(d);
    const QString sign = unitSign(unit);
    const QString in = sign.isEmpty() ? QString() : QStringLiteral(", ") + sign;
    Table table;
    table.columns = {{QStringLiteral("Reading"), 4.2, Align::Left},
                     {QStringLiteral("Value") + in, 1.1, Align::Right},
                     {QStringLiteral("u") + in, 0.8, Align::Right},
                     {QStringLiteral("Misfit") + in, 0.9, Align::Right},
                     {QStringLiteral("in its own spreads"), 0.9, Align::Right},
                     {QStringLiteral("Checked by others"), 0.9, Align::Right},
                     {QStringLiteral("Share of the doubt"), 0.9, Align::Right}};
    for (const Reading* reading : readings) {
        const ReadingResult* r = resultOf(result, *reading);
        Row row;
        row.anchor = index.anchor(reading->id.text);
        Text title = readingTitle(index, *reading);
        if (reading->setAside) {
            title.add(QStringLiteral(" — set aside"), Tone::Red);
            row.faint = true;
        }
        if (r != nullptr && r->echoOf) {
            title.add(QStringLiteral(" — echo of ") + index.code(r->echoOf->text) +
                      QStringLiteral(", not counted twice"));
            row.faint = true;
        }
        const QString dash = QStringLiteral("–");
        const auto cell = [&](const std::optional<double>& x, const auto& write) {
            return Text(x ? write(*x) : dash);
        };
        const auto two = [](double x) { return rounded(x, 2); };
        const double spread = r != nullptr && r->u ? *r->u : 0;
        if (r == nullptr) {
            row.cells = {title,      Text(dash), Text(dash), Text(dash),
                         Text(dash), Text(dash), Text(dash)};
        } else {
            row.cells = {
                title,
                cell(r->value, [&](double x) { return figureFor(x, spread); }),
                cell(r->u, two),
                cell(r->residual,
                     [&](double x) { return spread > 0 ? figureFor(x, spread) : rounded(x, 2); }),
                cell(r->w, two),
                cell(r->redundancy, [](double x) { return percent(x); }),
                cell(r->varianceShare, [](double x) { return percent(x); })};
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::optional<Figure> intervalFigure(const RegisterIndex& index, const Dimension& d) {
    const figure::IntervalPlot plot = readingPlot(index, d);
    // One bar and the same again under another name would show nothing.
    if (plot.readings.size() < 2 && !plot.ruled && !plot.tolerance) return std::nullopt;
    const quantity::Unit unit = unitOf(d);
    const figure::FigureStyle style = figureStyle();
    Figure drawn;
    drawn.size = QSizeF(kPageWide, figure::intervalPlotHeight(plot, style));
    drawn.paint = [plot, style](QPainter& painter, const QRectF& rect) {
        figure::drawIntervalPlot(painter, rect, plot, style);
    };
    QString caption = QStringLiteral("Readings and the size from all evidence together");
    if (!unitSign(unit).isEmpty()) caption += QStringLiteral(", ") + unitSign(unit);
    caption += QStringLiteral(". Bars of readings reach 1.96 u to either side.");
    if (plot.ruled) caption += QStringLiteral(" The ruled value stands as a line.");
    drawn.caption = Text(caption);
    drawn.description = caption;
    return drawn;
}

std::optional<Figure> threadFigure(const RegisterIndex& index, const Dimension& d) {
    const Thread thread =
        figure::threadOnPaper(threadOf(any(d.id), index.reg, index.analysis), kThreadRows);
    // A single strand, source to reading to size, is what the table of readings says already.
    if (thread.links.size() <= 2) return std::nullopt;
    const figure::FigureStyle style = figureStyle();
    const figure::ThreadLayout layout = figure::layoutThread(thread, kPageWide, style);
    Figure drawn;
    drawn.size = layout.size;
    drawn.paint = [thread, layout, style](QPainter& painter, const QRectF& rect) {
        painter.save();
        painter.translate(rect.topLeft());
        painter.scale(rect.width() / layout.size.width(), rect.height() / layout.size.height());
        figure::drawThread(painter, thread, layout, style);
        painter.restore();
    };
    drawn.caption = Text("What the size hangs on, from sources (left) to size (right).");
    drawn.description = QStringLiteral("Thread of ") + index.label(d.id.text);
    return drawn;
}

void writeReadings(Writing& writing, const Dimension& d, const DimensionResult* result) {
    const RegisterIndex& index = writing.index;
    const auto readings = index.readingsOf(d.id.text);
    if (readings.empty()) {
        Text words("No reading speaks of it directly");
        words.add(result != nullptr && result->value
                      ? QStringLiteral("; it follows from its relations and neighbours.")
                      : QStringLiteral("."));
        writing.document.paragraph(words);
    } else {
        writing.document.add(readingsTable(index, d, result, readings));
        List details;
        for (const Reading* reading : readings) {
            const Text detail = readingDetail(index, *reading, &d);
            if (detail.empty()) continue;
            details.items.push_back(
                Text().bold(index.code(reading->id.text) + QStringLiteral("  ")).append(detail));
        }
        if (!details.items.empty()) writing.document.add(std::move(details));
    }
    Figures pictures;
    for (const Reading* reading : readings) {
        if (reading->setAside) continue;
        for (Figure& picture : readingPictures(writing, *reading, index.code(d.id.text)))
            pictures.items.push_back(std::move(picture));
    }
    if (!pictures.items.empty()) writing.document.add(std::move(pictures));
    if (auto plot = intervalFigure(index, d)) writing.document.add(Figures{{std::move(*plot)}});
    if (auto thread = threadFigure(index, d)) writing.document.add(Figures{{std::move(*thread)}});
}

}  // namespace

void writeDimension(Writing& writing, const Dimension& d) {
    const RegisterIndex& index = writing.index;
    const DimensionResult* result = index.result(d.id.text);
    Document& document = writing.document;
    const int smallest = index.reg.archive.smallestFraction.value_or(32);
    const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, d);
    Text aside;
    if (interval) aside.bold(headline(*interval, smallest));
    document.blocks.emplace_back(Heading{
        3, index.code(d.id.text) + QStringLiteral("  ") + shown(d.name), index.anchor(d.id.text),
        result == nullptr ? Grade::Blank : result->grade, aside, false});
    if (d.critical.value_or(false)) {
        const bool weak = result != nullptr && cautionOn(d, *result) != Caution::None;
        document.paragraph(Text(cautionWords()),
                           weak ? ParagraphStyle::Caution : ParagraphStyle::Note);
    }
    writeValueFacts(writing, d, result);
    writeRulings(writing, d.id.text, &d);
    writeDeparturesOf(writing, d.id.text, &d);
    writeFindingsOn(writing, d.id.text);
    writeReadings(writing, d, result);
    writeWhatFollowed(writing, d.id.text, &d);
}

void writeDimensions(Writing& writing) {
    Document& document = writing.document;
    document.blocks.emplace_back(
        Heading{1, QStringLiteral("Part by part"), QStringLiteral("parts"), {}, {}, true});
    bool any = false;
    for (const ComponentGroup& group : byComponent(writing.selection)) {
        if (group.dimensions.empty() && group.particulars.empty()) continue;
        any = true;
        document.heading(2, group.name,
                         writing.index.anchor("component " + group.name.toStdString()));
        for (const Particular* p : group.particulars) writeParticular(writing, *p);
        for (const Dimension* d : group.dimensions) writeDimension(writing, *d);
    }
    if (!any) document.paragraph(Text("Nothing in the register fits this filter."));
}

}  // namespace app::report

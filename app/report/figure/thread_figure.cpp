#include "app/report/figure/thread_figure.h"

#include "app/report/document.h"
#include "app/report/figure/grade_mark.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

#include <algorithm>
#include <array>
#include <map>
#include <numeric>

namespace app::report::figure {

using evidence::judgement::Thread;
using evidence::judgement::ThreadLink;
using evidence::judgement::ThreadNode;
using evidence::judgement::ThreadStage;
using evidence::record::Grade;

namespace {

constexpr double kWidestFlow = 1.5;  // of the text size
constexpr double kThinnestFlow = 0.09;

QString text(const std::string& s) {
    return shown(s);
}

/// The stages that occur, left to right.
std::vector<ThreadStage> stagesOf(const Thread& thread) {
    std::vector<ThreadStage> stages;
    for (const auto& node : thread.nodes) stages.push_back(node.stage);
    std::ranges::sort(stages);
    stages.erase(std::ranges::unique(stages).begin(), stages.end());
    return stages;
}

/// Node indices per column, each column ordered by the mean place of what it flows into, so that
/// flows cross little. Works from the value leftwards.
std::vector<std::vector<std::size_t>> columnsOf(const Thread& thread,
                                                const std::vector<ThreadStage>& stages) {
    std::vector<std::vector<std::size_t>> columns(stages.size());
    for (std::size_t i = 0; i < thread.nodes.size(); ++i) {
        const auto found = std::ranges::find(stages, thread.nodes[i].stage);
        columns[static_cast<std::size_t>(found - stages.begin())].push_back(i);
    }
    std::vector<double> place(thread.nodes.size(), 0);
    for (auto column = columns.rbegin(); column != columns.rend(); ++column) {
        std::map<std::size_t, double> wanted;
        for (const std::size_t i : *column) {
            double sum = 0;
            double count = 0;
            for (const auto& link : thread.links)
                if (link.from == i) {
                    sum += place[link.to];
                    count += 1;
                }
            wanted[i] = count > 0 ? sum / count : 0.5;
        }
        std::ranges::stable_sort(*column, {}, [&](std::size_t i) { return wanted[i]; });
        for (std::size_t k = 0; k < column->size(); ++k)
            place[(*column)[k]] =
                (static_cast<double>(k) + 0.5) / static_cast<double>(column->size());
    }
    return columns;
}

bool counts(const ThreadNode& node) {
    return !node.echo && !node.setAside;
}

Qt::PenStyle lineOf(const ThreadNode& from) {
    if (from.guess || from.strength == Grade::OurCall) return Qt::DotLine;
    if (from.strength == Grade::BoxedIn || from.strength == Grade::CarriedOver) return Qt::DashLine;
    return Qt::SolidLine;
}

QColor colourOf(const ThreadNode& node, const FigurePalette& palette) {
    if (!counts(node)) return palette.hairline;
    return blended(palette.paper, gradeColour(node.strength),
                   node.strength == Grade::Blank ? 0.45 : 0.7);
}

/// The longest beginning of `words` that fits in `lines` lines of `width`, elided.
QString fitted(const QString& words, const QFontMetricsF& metrics, double width, int lines) {
    QStringList set;
    QString rest = words.simplified();
    while (!rest.isEmpty() && set.size() < lines) {
        if (set.size() == lines - 1 || metrics.horizontalAdvance(rest) <= width) {
            set << metrics.elidedText(rest, Qt::ElideRight, width);
            break;
        }
        qsizetype end = rest.size();
        while (end > 0 && metrics.horizontalAdvance(rest.left(end)) > width) {
            end = rest.lastIndexOf(QLatin1Char(' '), end - 1);
            if (end < 0) break;
        }
        if (end <= 0) {
            set << metrics.elidedText(rest, Qt::ElideRight, width);
            break;
        }
        set << rest.left(end);
        rest = rest.mid(end + 1);
    }
    return set.join(QLatin1Char('\n'));
}

void drawNode(QPainter& painter, const ThreadNode& node, const QRectF& box,
              const FigureStyle& style, bool chosen) {
    const auto& palette = style.palette;
    const double unit = style.textSize;
    painter.setPen(QPen(chosen ? palette.bluePencil : palette.hairline, chosen ? 1.6 : 0.8,
                        node.guess ? Qt::DashLine : Qt::SolidLine));
    painter.setBrush(palette.paper);
    painter.drawRect(box);
    const QRectF sign(box.left() + unit * 0.4, box.top() + unit * 0.42, unit * 0.85, unit * 0.85);
    const QColor ink = counts(node) ? palette.ink : palette.graphite;
    // Sources, marks and scales have no class of their own.
    const bool signedByClass = node.stage == ThreadStage::Value || node.strength != Grade::Blank;
    if (signedByClass) drawGradeMark(painter, sign, node.strength, ink, palette.paper);
    const double left = signedByClass ? sign.right() + unit * 0.4 : sign.left();
    const QRectF words(left, box.top() + unit * 0.25, box.right() - left - unit * 0.3,
                       box.height());
    QFont title = figureFont(style);
    title.setBold(node.stage == ThreadStage::Value);
    title.setStrikeOut(node.setAside);
    painter.setFont(title);
    painter.setPen(ink);
    const QFontMetricsF big(title);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignTop | Qt::TextDontClip,
                     fitted(text(node.title), big, words.width(), style.titleLines));
    const QFont small = figureFont(style, 0.88);
    const QFontMetricsF fine(small);
    painter.setFont(small);
    painter.setPen(node.guess ? palette.redPencil : palette.graphite);
    const QRectF below(words.left(), box.bottom() - fine.height() - unit * 0.2, words.width(),
                       fine.height());
    painter.drawText(below, Qt::AlignLeft | Qt::AlignVCenter,
                     fine.elidedText(text(node.detail), Qt::ElideRight, below.width()));
}

/// The way from one box to another; within one column in a bow beside it.
QPainterPath strand(const QRectF& a, const QRectF& b, double lane) {
    const QPointF from(a.right(), a.center().y());
    const bool sideBySide = b.left() < a.right();
    const QPointF to(sideBySide ? b.right() : b.left(), b.center().y());
    const double bend = sideBySide ? lane * 0.7 : std::max(lane * 0.5, (to.x() - from.x()) * 0.5);
    QPainterPath path(from);
    path.cubicTo(from + QPointF(bend, 0), to + QPointF(sideBySide ? bend : -bend, 0), to);
    return path;
}

}  // namespace

QString stageName(ThreadStage stage) {
    const auto words = [](const char* name) { return QCoreApplication::translate("Thread", name); };
    switch (stage) {
        case ThreadStage::Source:
            return words(QT_TRANSLATE_NOOP("Thread", "Sources"));
        case ThreadStage::Mark:
            return words(QT_TRANSLATE_NOOP("Thread", "Marks and excerpts"));
        case ThreadStage::Scale:
            return words(QT_TRANSLATE_NOOP("Thread", "Scales"));
        case ThreadStage::Reading:
            return words(QT_TRANSLATE_NOOP("Thread", "Readings"));
        case ThreadStage::Relation:
            return words(QT_TRANSLATE_NOOP("Thread", "Relations"));
        case ThreadStage::Value:
            return words(QT_TRANSLATE_NOOP("Thread", "Value"));
    }
    return {};
}

ThreadLayout layoutThread(const Thread& thread, double width, const FigureStyle& style) {
    ThreadLayout layout;
    layout.nodes.resize(thread.nodes.size());
    const auto stages = stagesOf(thread);
    if (stages.empty()) return layout;
    const auto columns = columnsOf(thread, stages);
    const double unit = style.textSize;
    const QFontMetricsF metrics(figureFont(style));
    const double lane = unit * style.lane;  // where the flows run
    const auto count = static_cast<double>(columns.size());
    const double boxWidth = std::max((width - lane * (count - 1)) / count, unit * 9.5);
    const double boxHeight = metrics.height() * (style.titleLines + 1) + unit * 0.6;
    const double gap = unit * 0.7;
    const double head = metrics.height() + unit * 0.6;
    const std::size_t tallest =
        std::ranges::max(columns, {}, [](const auto& c) { return c.size(); }).size();
    const double height = static_cast<double>(tallest) * (boxHeight + gap) - gap;
    layout.size = QSizeF(boxWidth * count + lane * (count - 1), head + height);
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const auto rows = static_cast<double>(columns[c].size());
        const double used = rows * (boxHeight + gap) - gap;
        double y = head + (height - used) / 2;
        const double x = static_cast<double>(c) * (boxWidth + lane);
        for (const std::size_t i : columns[c]) {
            layout.nodes[i] = QRectF(x, y, boxWidth, boxHeight);
            y += boxHeight + gap;
        }
    }
    for (const ThreadLink& link : thread.links) {
        const QRectF& a = layout.nodes[link.from];
        const QRectF& b = layout.nodes[link.to];
        layout.links.push_back(strand(a, b, lane));
        layout.widths.push_back(unit *
                                std::clamp(link.share * kWidestFlow, kThinnestFlow, kWidestFlow));
    }
    return layout;
}

void drawThread(QPainter& painter, const Thread& thread, const ThreadLayout& layout,
                const FigureStyle& style, std::optional<std::size_t> chosen) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    std::vector<std::size_t> order(thread.links.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::ranges::greater{},
                             [&](std::size_t i) { return layout.widths[i]; });
    for (const std::size_t i : order) {
        const ThreadNode& from = thread.nodes[thread.links[i].from];
        QPen pen(colourOf(from, style.palette), layout.widths[i], lineOf(from), Qt::FlatCap);
        if (pen.style() != Qt::SolidLine) {
            const double dash = style.textSize * (pen.style() == Qt::DotLine ? 0.25 : 0.7);
            const double space = style.textSize * (pen.style() == Qt::DotLine ? 0.3 : 0.3);
            pen.setDashPattern({dash / layout.widths[i], space / layout.widths[i]});
        }
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawPath(layout.links[i]);
    }
    for (std::size_t i = 0; i < thread.nodes.size(); ++i)
        drawNode(painter, thread.nodes[i], layout.nodes[i], style, chosen == i);
    painter.setFont(figureFont(style, 0.88));
    painter.setPen(style.palette.graphite);
    for (const ThreadStage stage : stagesOf(thread)) {
        const auto first = std::ranges::find(thread.nodes, stage, &ThreadNode::stage);
        const auto& box = layout.nodes[static_cast<std::size_t>(first - thread.nodes.begin())];
        painter.drawText(QRectF(box.left(), 0, box.width(), style.textSize * 1.4),
                         Qt::AlignLeft | Qt::AlignVCenter, stageName(stage));
    }
    painter.restore();
}

std::optional<std::size_t> nodeAt(const ThreadLayout& layout, const QPointF& point) {
    for (std::size_t i = 0; i < layout.nodes.size(); ++i)
        if (layout.nodes[i].contains(point)) return i;
    return std::nullopt;
}

}  // namespace app::report::figure

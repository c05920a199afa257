#include "app/report/figure/interval_figure.h"

#include "app/report/figure/grade_mark.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace app::report::figure {

namespace {

struct Span {
    double low = 0;
    double high = 1;
};

/// What the scale must show: every bound that there is, with a margin.
Span spanOf(const IntervalPlot& plot) {
    std::vector<double> all;
    const auto take = [&](const IntervalRow& row) {
        for (const auto& x : {row.value, row.low, row.high})
            if (x) all.push_back(*x);
    };
    for (const auto& row : plot.readings) take(row);
    if (plot.adjusted) take(*plot.adjusted);
    if (plot.ruled) all.push_back(*plot.ruled);
    if (all.empty()) return {};
    const auto [low, high] = std::ranges::minmax(all);
    const double margin = high > low ? (high - low) * 0.06 : std::max(std::abs(low) * 0.01, 0.5);
    return {low - margin, high + margin};
}

/// A step of 1, 2 or 5 (or 1/2, 1/4 … is left to the writer) that gives at most `most` ticks.
double tickStep(const Span& span, double most) {
    const double rough = (span.high - span.low) / std::max(1.0, most);
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0, 10.0})
        if (factor * power >= rough) return factor * power;
    return 10 * power;
}

struct Scale {
    Span span;
    double left = 0;
    double right = 1;
    [[nodiscard]] double x(double value) const {
        return left + (value - span.low) / (span.high - span.low) * (right - left);
    }
};

double rowHeight(const FigureStyle& style) {
    return style.textSize * 1.7;
}

double footHeight(const FigureStyle& style) {
    return style.textSize * 2.4;
}

double labelWidth(const QRectF& area, const IntervalPlot& plot, const QFontMetricsF& metrics) {
    double widest = metrics.height() * 3;
    for (const auto& row : plot.readings)
        widest = std::max(widest, metrics.horizontalAdvance(row.label));
    if (plot.adjusted)  // set in bold, an eighth wider
        widest = std::max(widest, 1.15 * metrics.horizontalAdvance(plot.adjusted->label));
    return std::min(widest + metrics.height() * 0.5, area.width() * 0.42);
}

void drawRow(QPainter& painter, const IntervalRow& row, double y, const Scale& scale,
             const FigureStyle& style, bool heavy) {
    const auto& palette = style.palette;
    const bool counts = !row.echo && !row.setAside;
    const QColor ink = counts ? palette.ink : palette.graphite;
    const double low = scale.x(row.low.value_or(scale.span.low));
    const double high = scale.x(row.high.value_or(scale.span.high));
    const double tall = style.textSize * (heavy ? 0.42 : 0.26);
    if (!counts || row.guess) {
        painter.setPen(QPen(ink, 1, row.guess ? Qt::DotLine : Qt::DashLine));
        painter.drawLine(QPointF(low, y), QPointF(high, y));
    } else {
        drawGradeFill(painter, QRectF(low, y - tall, std::max(1.0, high - low), 2 * tall),
                      row.grade, ink, palette.paper);
    }
    painter.setPen(QPen(ink, 1));
    const double post = style.textSize * 0.45;
    if (row.low) painter.drawLine(QPointF(low, y - post), QPointF(low, y + post));
    if (row.high) painter.drawLine(QPointF(high, y - post), QPointF(high, y + post));
    if (row.value) {
        const double mark = style.textSize * (heavy ? 0.95 : 0.75);
        const double x = scale.x(*row.value);
        drawGradeMark(painter, QRectF(x - mark / 2, y - mark / 2, mark, mark), row.grade, ink,
                      palette.paper);
    }
}

void drawAxis(QPainter& painter, const QRectF& area, const IntervalPlot& plot, const Scale& scale,
              const FigureStyle& style) {
    const QFont font = figureFont(style, 0.88);
    const QFontMetricsF metrics(font);
    const auto write = [&](double x) {
        return plot.write ? plot.write(x) : QString::number(x, 'g', 6);
    };
    const double widest = std::max(metrics.horizontalAdvance(write(scale.span.low)),
                                   metrics.horizontalAdvance(write(scale.span.high)));
    const double room = (scale.right - scale.left) / (widest * 1.6);
    const double step = tickStep(scale.span, std::clamp(room, 1.0, 8.0));
    const double y = area.bottom() - footHeight(style) + style.textSize * 0.4;
    painter.setFont(font);
    painter.setPen(QPen(style.palette.hairline, 0.8));
    painter.drawLine(QPointF(scale.left, y), QPointF(scale.right, y));
    for (double x = std::ceil(scale.span.low / step) * step; x <= scale.span.high; x += step) {
        const double at = scale.x(x);
        painter.setPen(QPen(style.palette.graphite, 0.8));
        painter.drawLine(QPointF(at, y), QPointF(at, y + style.textSize * 0.3));
        painter.drawText(
            QRectF(at - widest, y + style.textSize * 0.35, 2 * widest, metrics.height()),
            Qt::AlignHCenter | Qt::AlignTop, write(std::abs(x) < step / 1e6 ? 0 : x));
    }
}

void drawLabel(QPainter& painter, const IntervalRow& row, const QRectF& box,
               const FigureStyle& style, bool bold) {
    QFont font = figureFont(style, 0.95);
    font.setBold(bold);
    font.setStrikeOut(row.setAside);
    painter.setFont(font);
    painter.setPen(row.echo || row.setAside ? style.palette.graphite : style.palette.ink);
    painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(font).elidedText(row.label, Qt::ElideRight, box.width()));
}

}  // namespace

double intervalPlotHeight(const IntervalPlot& plot, const FigureStyle& style) {
    const auto rows = static_cast<double>(plot.readings.size() + (plot.adjusted ? 1 : 0));
    return rows * rowHeight(style) + footHeight(style) + style.textSize * 0.5;
}

void drawIntervalPlot(QPainter& painter, const QRectF& area, const IntervalPlot& plot,
                      const FigureStyle& style) {
    const auto rows = plot.readings.size() + (plot.adjusted ? 1U : 0U);
    if (rows == 0) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double labels = labelWidth(area, plot, QFontMetricsF(figureFont(style, 0.95)));
    const Scale scale{spanOf(plot), area.left() + labels, area.right() - style.textSize};
    const double body = area.height() - footHeight(style);
    const double pitch = std::min(rowHeight(style), body / static_cast<double>(rows));
    if (plot.adjusted && plot.adjusted->low && plot.adjusted->high) {
        const double a = scale.x(*plot.adjusted->low);
        const double b = scale.x(*plot.adjusted->high);
        painter.fillRect(QRectF(a, area.top(), std::max(1.0, b - a), body),
                         blended(style.palette.paper, style.palette.hairline, 0.45));
    }
    if (plot.ruled) {
        painter.setPen(QPen(style.palette.bluePencil, 1.2));
        const double x = scale.x(*plot.ruled);
        painter.drawLine(QPointF(x, area.top()), QPointF(x, area.top() + body));
    }
    double y = area.top() + pitch / 2;
    const auto place = [&](const IntervalRow& row, bool heavy) {
        drawLabel(painter, row, QRectF(area.left(), y - pitch / 2, labels - 4, pitch), style,
                  heavy);
        drawRow(painter, row, y, scale, style, heavy);
        y += pitch;
    };
    for (const auto& row : plot.readings) place(row, false);
    if (plot.adjusted) place(*plot.adjusted, true);
    drawAxis(painter, area, plot, scale, style);
    painter.restore();
}

void drawIntervalBar(QPainter& painter, const QRectF& box, const IntervalRow& row,
                     std::optional<double> tolerance, const FigurePalette& palette) {
    if (!row.value || !row.low || !row.high) return;
    const double below = *row.value - *row.low;
    const double above = *row.high - *row.value;
    const double half = std::max({below, above, 1e-12});
    // The wanted gap takes half the width; an interval far too wide runs out of the box on both
    // sides and is cut, which is what it looks like on the bench.
    const double unit =
        tolerance && *tolerance > 0 ? box.width() * 0.25 / *tolerance : box.width() * 0.25 / half;
    const double middle = box.center().x();
    const double left = std::max(box.left(), middle - below * unit);
    const double right = std::min(box.right(), middle + above * unit);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double tall = box.height() * 0.36;
    drawGradeFill(painter,
                  QRectF(left, box.center().y() - tall / 2, std::max(1.0, right - left), tall),
                  row.grade, palette.ink, palette.paper);
    painter.setPen(QPen(palette.ink, 1));
    painter.drawLine(QPointF(middle, box.center().y() - tall * 0.8),
                     QPointF(middle, box.center().y() + tall * 0.8));
    if (tolerance && *tolerance > 0) {
        const bool fits = half <= *tolerance;
        painter.setPen(QPen(fits ? palette.graphite : palette.redPencil, 1.4));
        for (const double side : {-1.0, 1.0}) {
            const double x = middle + side * *tolerance * unit;
            painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
            painter.drawLine(QPointF(x, box.top()), QPointF(x + side * 3, box.top()));
            painter.drawLine(QPointF(x, box.bottom()), QPointF(x + side * 3, box.bottom()));
        }
    }
    painter.restore();
}

}  // namespace app::report::figure

#pragma once

#include "app/report/figure/figure_style.h"
#include "evidence-core/record/value.h"

#include <QRectF>
#include <QString>

#include <functional>
#include <optional>
#include <vector>

class QPainter;

/// Values with their 95 % intervals as bars on one scale.
namespace app::report::figure {

/// One bar. All numbers in one unit, `low` ≤ `value` ≤ `high`; low and high bound the 95 %
/// interval. A limit has no value.
struct IntervalRow {
    QString label;
    std::optional<double> value;
    std::optional<double> low;   ///< absent: open downwards
    std::optional<double> high;  ///< absent: open upwards
    evidence::record::Grade grade = evidence::record::Grade::Blank;
    bool guess = false;
    bool echo = false;
    bool setAside = false;
};

struct IntervalPlot {
    std::vector<IntervalRow> readings;
    std::optional<IntervalRow> adjusted;  ///< all evidence together
    std::optional<double> ruled;
    std::optional<double> tolerance;  ///< wanted, ± about the ruled, else the adjusted value
    /// Writes a value for the axis; without it, plain decimals.
    std::function<QString(double)> write;
};

/// Height the plot wants for all its rows.
[[nodiscard]] double intervalPlotHeight(const IntervalPlot& plot, const FigureStyle& style);

/// Draws the readings over each other, the adjusted value as a band through all of them, the ruled
/// value as a line, and the scale along the foot.
void drawIntervalPlot(QPainter& painter, const QRectF& area, const IntervalPlot& plot,
                      const FigureStyle& style);

/// The small bar of a ledger row: the 95 % interval about its value, and the wanted tolerance as a
/// gap between two posts that it must fit in. Without a tolerance the bar alone, at half the width.
void drawIntervalBar(QPainter& painter, const QRectF& box, const IntervalRow& row,
                     std::optional<double> tolerance, const FigurePalette& palette);

}  // namespace app::report::figure

#pragma once

#include "evidence-core/record/mark.h"

#include <QPainter>
#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <QString>

#include <functional>

/// Marks as two-tone hairlines over a picture, and the bar that shows its scale.
namespace app::report {

enum class MarkRole {
    Wanted,  ///< what was measured: blue pencil, with jaws at both ends
    Known    ///< the known length of the scale: ink, dashed
};

/// Sheet pixels to the figure's points.
using ToFigure = std::function<QPointF(const evidence::record::PixelPoint&)>;

/// The corners of everything a mark covers, in sheet pixels (with the rim of a circle).
[[nodiscard]] QRectF markBounds(const evidence::record::Mark& mark);

/// The line that shows a mark, in the figure's points: a segment with jaws, a cross, a rim.
/// `pointsPerPixel` is the figure's size of a sheet pixel.
[[nodiscard]] QPainterPath markPath(const evidence::record::Mark& mark, const ToFigure& toFigure,
                                    double pointsPerPixel);

/// Draws one mark. `pointsPerPixel` is the figure's size of a sheet pixel; `label` stands on a
/// plate of paper beside it, inside `within`.
void drawMark(QPainter& painter, const evidence::record::Mark& mark, MarkRole role,
              const ToFigure& toFigure, double pointsPerPixel, const QString& label,
              const QRectF& within);

/// A bar of a round length, at most a third of `within`'s width, at its lower left; labelled in
/// both systems. Nothing where no round length fits.
void drawScaleBar(QPainter& painter, double inchesPerPoint, const QRectF& within);

}  // namespace app::report

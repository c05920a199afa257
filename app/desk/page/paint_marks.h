#pragma once

#include "app/desk/page/label_places.h"
#include "app/desk/page/mark_spread.h"
#include "app/desk/page/page_marks.h"
#include "app/desk/page/page_viewport.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QString>

namespace app::desk::page {

enum class MarkLook {
    Plain,
    UnderPointer,
    Chosen,  ///< in blue pencil
};

/// Paints a mark as a two-tone hairline (ink under, paper over), references dashed; its 95 %
/// uncertainty to scale where that is large enough to see. Colours are those of paper in every
/// theme: pictures do not change with the lamp.
void paintMark(QPainter& painter, const PageMark& mark, const PageViewport& viewport, MarkLook look,
               double defaultU);

/// Small squares on the ends that the pixels have drawn to themselves.
void paintSnapped(QPainter& painter, const evidence::record::Mark& mark,
                  const PageViewport& viewport);

/// A plate for words above `at`, kept inside `within`.
[[nodiscard]] QRectF plateBeside(const QPointF& at, const QString& words, const QRectF& within,
                                 const QFontMetricsF& metrics);
/// Words on a plate of paper.
void paintPlate(QPainter& painter, const QRectF& plate, const QString& words, const QColor& ink);

}  // namespace app::desk::page

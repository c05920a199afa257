#pragma once

#include "app/desk/page/mark_spread.h"
#include "app/desk/page/page_marks.h"
#include "app/desk/page/page_viewport.h"

#include <QPainter>
#include <QString>

namespace app::desk::page {

enum class MarkLook {
    Plain,
    UnderPointer,  ///< with its label
    Chosen,        ///< in blue pencil
};

/// Paints a mark as a two-tone hairline (ink under, paper over), references dashed; its 95 %
/// uncertainty to scale where that is large enough to see; its label where there is room or it is
/// looked at. Colours are those of paper in every theme: pictures do not change with the lamp.
void paintMark(QPainter& painter, const PageMark& mark, const PageViewport& viewport, MarkLook look,
               double defaultU);

/// Small squares on the ends that the pixels have drawn to themselves.
void paintSnapped(QPainter& painter, const evidence::record::Mark& mark,
                  const PageViewport& viewport);

/// A word on a plate of paper above `beside`, kept inside `within`.
void paintPlate(QPainter& painter, const QString& words, const QPointF& beside,
                const QRectF& within, const QColor& ink);

}  // namespace app::desk::page

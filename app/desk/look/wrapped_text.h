#pragma once

#include <QRectF>
#include <QString>

class QFont;
class QPainter;

namespace app::desk::look {

/// Draws `words` in the painter's font and pen in at most `lines` lines, the last one elided, the
/// block in the middle of the box's height.
void drawWrapped(QPainter& painter, const QRectF& box, const QString& words, int lines);

/// Height of all of `words` at this width.
[[nodiscard]] double wrappedHeight(const QFont& font, const QString& words, double width);

}  // namespace app::desk::look

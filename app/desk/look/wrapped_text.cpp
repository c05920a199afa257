#include "app/desk/look/wrapped_text.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

namespace app::desk::look {

namespace {

/// Breaks at words into lines of `width`, at most `most` of them where it is positive.
int breakLines(QTextLayout& layout, double width, int most) {
    int count = 0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        if (++count == most) break;
    }
    layout.endLayout();
    return count;
}

}  // namespace

void drawWrapped(QPainter& painter, const QRectF& box, const QString& words, int lines) {
    if (box.width() <= 0 || words.isEmpty()) return;
    const QFontMetricsF metrics(painter.font());
    QTextLayout layout(words, painter.font());
    const int count = breakLines(layout, box.width(), lines);
    double y = box.center().y() - count * metrics.lineSpacing() / 2;
    for (int i = 0; i < count; ++i) {
        const QTextLine line = layout.lineAt(i);
        const QString rest = words.mid(line.textStart());
        const QString set = i + 1 == count ? metrics.elidedText(rest, Qt::ElideRight, box.width())
                                           : words.mid(line.textStart(), line.textLength());
        painter.drawText(QRectF(box.left(), y, box.width(), metrics.lineSpacing()),
                         Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, set.trimmed());
        y += metrics.lineSpacing();
    }
}

double wrappedHeight(const QFont& font, const QString& words, double width) {
    QTextLayout layout(words, font);
    return breakLines(layout, width, -1) * QFontMetricsF(font).lineSpacing();
}

}  // namespace app::desk::look

#pragma once

#include <QColor>
#include <QFont>
#include <QString>

/// What the figures of desk and report share: colours, type and sizes. Figures are drawn with
/// QPainter on any device in the painter's own units; a report scales its painter to points, the
/// desk draws in pixels. Nothing is translucent, because archival PDF forbids it.
namespace app::report::figure {

struct FigurePalette {
    QColor paper{QStringLiteral("#FAF8F2")};
    QColor ink{QStringLiteral("#1C2B39")};
    QColor graphite{QStringLiteral("#6B7280")};
    QColor hairline{QStringLiteral("#D8D2C4")};
    QColor bluePencil{QStringLiteral("#2F5D8C")};  ///< what is chosen
    QColor redPencil{QStringLiteral("#B3402E")};   ///< what needs attention
};

struct FigureStyle {
    FigurePalette palette;
    QString family = QStringLiteral("DejaVu Sans");
    double textSize = 11;  ///< height of the figures' text in painter units
    int titleLines = 2;    ///< of a thread's box
    double lane = 3.2;     ///< between a thread's columns, of the text size
    bool onPaper = false;  ///< glyphs keep their design's widths, no ligatures
};

/// The style's font at `factor` times its text size, in painter units (pixel size).
[[nodiscard]] QFont figureFont(const FigureStyle& style, double factor = 1.0);

/// `a` and `b` mixed, `share` of `b`: what a translucent colour would show.
[[nodiscard]] QColor blended(const QColor& a, const QColor& b, double share);

}  // namespace app::report::figure

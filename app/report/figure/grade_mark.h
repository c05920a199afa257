#pragma once

#include "evidence-core/record/value.h"

#include <QColor>
#include <QRectF>
#include <QString>

class QPainter;

/// How a grade looks: letter, shape, fill pattern and colour, so that colour is never the only
/// sign.
namespace app::report::figure {

/// Colour of a grade, dark to light to warm (design: the drawing office). Never used alone.
[[nodiscard]] QColor gradeColour(evidence::record::Grade grade);
/// "H", "F" … "–".
[[nodiscard]] QString gradeLetter(evidence::record::Grade grade);
/// "In hand", "Figured" … in the user's language.
[[nodiscard]] QString gradeName(evidence::record::Grade grade);
/// The sentence that says what the grade means.
[[nodiscard]] QString gradeMeaning(evidence::record::Grade grade);

/// Draws the grade's mark into the largest square in the middle of `box`: filled square, circle,
/// triangle; open square, circle; cross; dash; outlined in `ink`, open marks show the lighter of
/// `paper` and `ink` inside.
void drawGradeMark(QPainter& painter, const QRectF& box, evidence::record::Grade grade,
                   const QColor& ink, const QColor& paper);

/// Fills `box` with the grade's colour and its own hatching, outlined in `ink`.
void drawGradeFill(QPainter& painter, const QRectF& box, evidence::record::Grade grade,
                   const QColor& ink, const QColor& paper);

}  // namespace app::report::figure

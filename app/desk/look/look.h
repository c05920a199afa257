#pragma once

#include "app/report/figure/figure_style.h"

#include <QColor>
#include <QIcon>
#include <QString>

class QApplication;

/// The drawing office: the desk's colours, type and icons. One place for all of it.
namespace app::desk::look {

enum class Theme { Paper, Lamp };  ///< light, dark

struct Colours {
    QColor paper;  ///< where things are written and shown
    QColor panel;  ///< what lies around it
    QColor ink;
    QColor graphite;  ///< secondary words
    QColor hairline;
    QColor bluePencil;  ///< selection and the pointer's live figures
    QColor redPencil;   ///< what needs attention, and nothing else
};
[[nodiscard]] Colours coloursOf(Theme theme);

/// The colours of what the application wears now.
[[nodiscard]] const Colours& colours();
/// The same for the figures that desk and report share.
[[nodiscard]] report::figure::FigureStyle figureStyle();

/// Dresses the application: Fusion, palette, style sheet, figures of equal width.
void dress(QApplication& application, Theme theme);

/// Our own line icons, 20-px grid, in ink: "look", "scale", "measure", "circle", "glass", "pin", "guess",
/// "rule", "reading", "dimension", "report", "portfolio", "undo", "redo", "whole", "nearer",
/// "farther", "take-in", "print-scale", "set-aside", "filter", "lamp". Asserts that the name is
/// known.
[[nodiscard]] QIcon icon(const QString& name);

}  // namespace app::desk::look

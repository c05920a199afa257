#pragma once

#include "app/report/figure/figure_style.h"

#include <QColor>
#include <QFont>
#include <QIcon>
#include <QString>
#include <QStringList>

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
    QColor chosen;      ///< ground of a chosen row: paper shaded with the blue pencil
};
[[nodiscard]] const Colours& coloursOf(Theme theme);

/// What the application wears now; Paper before it is dressed.
[[nodiscard]] Theme theme();
/// The colours of it.
[[nodiscard]] const Colours& colours();
/// The same for the figures that desk and report share, in pixels.
[[nodiscard]] report::figure::FigureStyle figureStyle();

/// Distances are multiples of this many pixels.
inline constexpr int kGrid = 4;

/// The four sizes of type: 9, 10, 12 and 16 pt.
enum class Size { Small, Text, Heading, Title };
/// The platform's sans, for words.
[[nodiscard]] QFont type(Size size);
/// For figures: the same where its digits are equally wide, else a sans that has such digits.
[[nodiscard]] QFont figures(Size size);

/// Dresses the application: Fusion, palette, style sheet, size of type. May be called again with
/// the other theme; icons follow. A label whose property "pencil" is "red", "blue" or "graphite" is
/// written in that colour.
void dress(QApplication& application, Theme theme);

/// Our own line icons, 20-px grid, in ink, in graphite where disabled, in blue pencil where
/// checked: "look", "scale", "measure", "circle", "glass", "pin", "guess", "rule", "reading",
/// "dimension", "report", "portfolio", "undo", "redo", "whole", "nearer", "farther", "take-in",
/// "print-scale", "set-aside", "filter", "lamp". Asserts that the name is known.
[[nodiscard]] QIcon icon(const QString& name);
/// Their names.
[[nodiscard]] QStringList iconNames();

}  // namespace app::desk::look

#pragma once

#include <QColor>

/// Paper, ink and the two pencils: the drawing office's colours on paper. Graphite is a shade
/// darker than on the screen, so that small print stays legible.
namespace app::report {

inline const QColor kPaper{0xFA, 0xF8, 0xF2};
inline const QColor kPanel{0xF1, 0xED, 0xE3};
inline const QColor kInk{0x1C, 0x2B, 0x39};
inline const QColor kGraphite{0x5B, 0x63, 0x70};
inline const QColor kHairline{0xD8, 0xD2, 0xC4};
inline const QColor kBluePencil{0x2F, 0x5D, 0x8C};
inline const QColor kRedPencil{0xB3, 0x40, 0x2E};

}  // namespace app::report

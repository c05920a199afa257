#pragma once

#include <QString>

namespace app::desk::ledger {

/// A figure cut where a column of figures is aligned: before the fraction of an inch or the decimal
/// point. "3′-7 5⁄16″" → "3′-7", " 5⁄16″"; "12.50" → "12", ".50"; "3′-0″" → "3′-0", "″".
struct AlignedFigure {
    QString whole;
    QString part;
};

[[nodiscard]] AlignedFigure alignedFigure(const QString& figure);

}  // namespace app::desk::ledger

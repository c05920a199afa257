#include "app/desk/ledger/aligned_figure.h"

#include <QRegularExpression>

namespace app::desk::ledger {

AlignedFigure alignedFigure(const QString& figure) {
    // The part: a decimal point and what follows it, or a fraction and its primes, or primes alone,
    // or a unit after a whole number.
    static const QRegularExpression kPart(QStringLiteral(
        "(\\.\\d+.*|\\s?(?:\\d+[⁄/]\\d+|[½¼¾⅛⅜⅝⅞⅓⅔])[″\"]?|[″\"]|[\\s\\x{00A0}°]\\D*)$"));
    const auto match = kPart.match(figure);
    if (!match.hasMatch()) return {figure, {}};
    return {figure.left(match.capturedStart()), match.captured()};
}

}  // namespace app::desk::ledger

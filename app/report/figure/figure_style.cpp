#include "app/report/figure/figure_style.h"

#include <cmath>

namespace app::report::figure {

QFont figureFont(const FigureStyle& style, double factor) {
    QFont font(style.family);
    font.setPixelSize(std::max(1, static_cast<int>(std::lround(style.textSize * factor))));
    if (style.onPaper) {
        font.setHintingPreference(QFont::PreferNoHinting);
        font.setStyleStrategy(QFont::PreferNoShaping);
    }
    return font;
}

QColor blended(const QColor& a, const QColor& b, double share) {
    const auto mix = [share](int x, int y) {
        return static_cast<int>(std::lround(x + (y - x) * share));
    };
    return {mix(a.red(), b.red()), mix(a.green(), b.green()), mix(a.blue(), b.blue())};
}

}  // namespace app::report::figure

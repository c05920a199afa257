#include "app/desk/page/paint_page.h"

#include <algorithm>
#include <cmath>

namespace app::desk::page {

namespace {

constexpr double kSquaresFrom = 4;  ///< 400 %

struct Run {
    int first = 0;
    int last = -1;
};

/// The tiles from `low` to `high` (level pixels), of `count`.
Run tilesBetween(double low, double high, int count) {
    return {std::max(0, static_cast<int>(std::floor(low / kTileSide))),
            std::min(count - 1, static_cast<int>(std::floor(high / kTileSide)))};
}

/// Edges on whole device pixels: neighbours share them, so that no seam shows between tiles.
QRectF onPixels(const QRectF& rect, double ratio) {
    const auto round = [&](double at) { return std::round(at * ratio) / ratio; };
    return {QPointF(round(rect.left()), round(rect.top())),
            QPointF(round(rect.right()), round(rect.bottom()))};
}

}  // namespace

int levelFor(double zoom, int levels) {
    int level = 0;
    while (level + 1 < levels && zoom * std::ldexp(1.0, level + 1) <= 1) ++level;
    return level;
}

void paintPage(QPainter& painter, TileSource& tiles, const PageViewport& viewport,
               const QRectF& within) {
    const double ratio = painter.device()->devicePixelRatioF();
    const int level = levelFor(viewport.zoom() * ratio, tiles.picture()->levels());
    const double step = std::ldexp(1.0, level);  // page pixels per level pixel
    // Level coordinates count from the page's edge, which lies at −½.
    const auto toLevel = [&](const QPointF& view) {
        return (viewport.toPage(view) + QPointF(0.5, 0.5)) / step;
    };
    const QPointF low = toLevel(within.topLeft());
    const QPointF high = toLevel(within.bottomRight());
    const QSize count = tiles.tilesOf(level);
    const Run columns = tilesBetween(low.x(), high.x(), count.width());
    const Run rows = tilesBetween(low.y(), high.y(), count.height());
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform, viewport.zoom() * ratio < kSquaresFrom);
    for (int row = rows.first; row <= rows.last; ++row)
        for (int column = columns.first; column <= columns.last; ++column) {
            const TileKey key{level, column, row};
            const QRect pixels = tiles.pixelsOf(key);
            const QRectF page(QPointF(pixels.topLeft()) * step - QPointF(0.5, 0.5),
                              QSizeF(pixels.size()) * step);
            const QPixmap tile = tiles.tile(key);
            // The last level pixel may reach beyond the page's edge.
            const QRectF onPage = page & viewport.pageBox();
            painter.drawPixmap(onPixels(viewport.toView(onPage), ratio), tile,
                               QRectF(0, 0, onPage.width() / step, onPage.height() / step));
        }
    painter.restore();
}

}  // namespace app::desk::page

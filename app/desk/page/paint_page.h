#pragma once

#include "app/desk/page/page_viewport.h"
#include "app/desk/page/tile_source.h"

#include <QPainter>
#include <QRectF>

namespace app::desk::page {

/// The level of the pyramid to show at `zoom` (device px per page pixel): the most reduced one
/// that still has a pixel for every one of the screen.
[[nodiscard]] int levelFor(double zoom, int levels);

/// Paints the part of the page that lies in `within` (view coordinates): single pixels are squares
/// above 400 %, smooth below. Entry: `tiles` is ready.
void paintPage(QPainter& painter, TileSource& tiles, const PageViewport& viewport,
               const QRectF& within);

}  // namespace app::desk::page

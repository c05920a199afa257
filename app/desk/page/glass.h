#pragma once

#include "app/desk/page/page_viewport.h"

#include <QPainter>
#include <QPointF>

#include <functional>

namespace app::desk::page {

inline constexpr double kGlassPower = 4;
inline constexpr double kGlassRadius = 84;  ///< view px

/// What lies under the glass, painted as the given viewport shows it.
using Scene = std::function<void(QPainter&, const PageViewport&, const QRectF& within)>;

/// A round glass about the pointer `at`: the scene four times enlarged, a crosshair on the point
/// that the pointer means, and a soft shadow.
void paintGlass(QPainter& painter, const QPointF& at, const PageViewport& viewport,
                const Scene& scene);

}  // namespace app::desk::page

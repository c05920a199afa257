#include "app/desk/page/glass.h"

#include "app/desk/look/look.h"

#include <QPainterPath>
#include <QRadialGradient>

namespace app::desk::page {

namespace {

void paintShadow(QPainter& painter, const QPointF& at) {
    constexpr double kReach = 14;
    const QPointF below = at + QPointF(0, 4);
    QRadialGradient shadow(below, kGlassRadius + kReach);
    const QColor dark = look::coloursOf(look::Theme::Paper).ink;
    const auto faded = [&](float alpha) {
        QColor colour = dark;
        colour.setAlphaF(alpha);
        return colour;
    };
    shadow.setColorAt((kGlassRadius - 4) / (kGlassRadius + kReach), faded(0.35F));
    shadow.setColorAt(1, faded(0));
    painter.setPen(Qt::NoPen);
    painter.setBrush(shadow);
    painter.drawEllipse(below, kGlassRadius + kReach, kGlassRadius + kReach);
}

/// Ink under, paper over; open in the middle, where the point is.
void paintCrosshair(QPainter& painter, const QPointF& at) {
    constexpr double kFrom = 4;
    constexpr double kTo = 22;
    QPainterPath cross;
    for (const QPointF& way : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
        cross.moveTo(at + kFrom * way);
        cross.lineTo(at + kTo * way);
    }
    const auto& colours = look::coloursOf(look::Theme::Paper);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.ink, 3));
    painter.drawPath(cross);
    painter.setPen(QPen(colours.paper, 1));
    painter.drawPath(cross);
}

}  // namespace

void paintGlass(QPainter& painter, const QPointF& at, const PageViewport& viewport,
                const Scene& scene) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    paintShadow(painter, at);
    QPainterPath rim;
    rim.addEllipse(at, kGlassRadius, kGlassRadius);
    painter.save();
    painter.setClipPath(rim);
    painter.fillPath(rim, look::colours().panel);
    scene(painter, viewport.magnified(at, kGlassPower), rim.boundingRect());
    paintCrosshair(painter, at);
    painter.restore();
    painter.setBrush(Qt::NoBrush);
    const auto& colours = look::coloursOf(look::Theme::Paper);
    painter.setPen(QPen(colours.ink, 3));
    painter.drawPath(rim);
    painter.setPen(QPen(colours.paper, 1));
    painter.drawPath(rim);
    painter.restore();
}

}  // namespace app::desk::page

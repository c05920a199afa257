#include "app/desk/page/paint_marks.h"

#include "app/desk/look/look.h"
#include "app/report/mark_drawing.h"

#include <QPen>

#include <algorithm>
#include <numbers>

namespace app::desk::page {

namespace record = evidence::record;

namespace {

constexpr double kSeenFrom = 3;  ///< view px of half axis from which an uncertainty is drawn

const look::Colours& onPicture() {
    return look::coloursOf(look::Theme::Paper);
}

QPen hairline(const QColor& colour, double width) {
    QPen pen(colour, width);
    pen.setCapStyle(Qt::FlatCap);
    return pen;
}

void paintTwoTone(QPainter& painter, const QPainterPath& path, MarkUse use, MarkLook look) {
    const auto& colours = onPicture();
    const bool chosen = look == MarkLook::Chosen;
    const QColor under = chosen ? colours.paper : colours.ink;
    const QColor over = chosen ? colours.bluePencil : colours.paper;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(hairline(under, chosen || look == MarkLook::UnderPointer ? 4 : 3));
    painter.drawPath(path);
    QPen pen = hairline(over, chosen ? 2 : 1.2);
    if (use == MarkUse::Reference) pen.setDashPattern({5 / pen.widthF(), 4 / pen.widthF()});
    painter.setPen(pen);
    painter.drawPath(path);
}

void paintSpread(QPainter& painter, const MarkSpread& spread, const PageViewport& viewport) {
    QColor wash = onPicture().bluePencil;
    wash.setAlphaF(0.22F);
    painter.setPen(hairline(onPicture().bluePencil, 1));
    painter.setBrush(wash);
    for (const SpreadEllipse& ellipse : spread.points) {
        if (ellipse.major * viewport.zoom() < kSeenFrom) continue;
        painter.save();
        painter.translate(viewport.toView(ellipse.centre));
        painter.rotate(ellipse.angle * 180 / std::numbers::pi);
        painter.drawEllipse(QPointF(0, 0), ellipse.major * viewport.zoom(),
                            ellipse.minor * viewport.zoom());
        painter.restore();
    }
    if (spread.rim && spread.rim->halfWidth * viewport.zoom() >= kSeenFrom) {
        const QPointF centre = viewport.toView(spread.rim->centre);
        QPainterPath band;
        for (const double side : {1.0, -1.0}) {
            const double radius =
                std::max(0.0, spread.rim->radius + side * spread.rim->halfWidth) * viewport.zoom();
            band.addEllipse(centre, radius, radius);
        }
        painter.drawPath(band);
    }
}

}  // namespace

QRectF plateBeside(const QPointF& at, const QString& words, const QRectF& within,
                   const QFontMetricsF& metrics) {
    QRectF plate(QPointF(0, 0), plateSize(words, metrics));
    plate.moveCenter(at);
    plate.moveBottom(at.y());
    const QRectF room = within.adjusted(2, 2, -2, -2);
    plate.moveLeft(
        std::clamp(plate.left(), room.left(), std::max(room.left(), room.right() - plate.width())));
    plate.moveTop(
        std::clamp(plate.top(), room.top(), std::max(room.top(), room.bottom() - plate.height())));
    return plate;
}

void paintPlate(QPainter& painter, const QRectF& plate, const QString& words, const QColor& ink) {
    painter.save();
    painter.setPen(hairline(onPicture().hairline, 1));
    painter.setBrush(onPicture().paper);
    painter.drawRect(plate);
    painter.setPen(ink);
    painter.drawText(plate, Qt::AlignCenter, words);
    painter.restore();
}

void paintSnapped(QPainter& painter, const record::Mark& mark, const PageViewport& viewport) {
    constexpr double kHalf = 3.5;
    painter.save();
    painter.setPen(hairline(onPicture().paper, 1));
    painter.setBrush(onPicture().bluePencil);
    for (const record::PixelPoint& point : mark.points) {
        const QPointF at = viewport.toView(QPointF(point.x, point.y));
        painter.drawRect(QRectF(at - QPointF(kHalf, kHalf), at + QPointF(kHalf, kHalf)));
    }
    painter.restore();
}

void paintMark(QPainter& painter, const PageMark& mark, const PageViewport& viewport, MarkLook look,
               double defaultU) {
    const QRectF view = viewport.toView(viewport.visible());
    const QPainterPath path = pathInView(*mark.mark, viewport);
    const QRectF bounds = path.boundingRect();
    if (!bounds.adjusted(-8, -8, 8, 8).intersects(view)) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    paintSpread(painter, spreadOf(*mark.mark, defaultU), viewport);
    paintTwoTone(painter, path, mark.use, look);
    painter.restore();
}

}  // namespace app::desk::page

#include "app/report/mark_drawing.h"

#include "app/report/ink.h"

#include <QFont>
#include <QFontMetricsF>
#include <QPen>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

namespace app::report {

using namespace evidence::record;

namespace {

struct Circle {
    PixelPoint centre;
    double radius = 0;
};

// The circle through the first, the middle and the last rim point: only to draw where the mark was
// placed, the fit itself is in `fit`.
std::optional<Circle> throughRim(const std::vector<PixelPoint>& rim) {
    if (rim.size() < 3) return std::nullopt;
    const PixelPoint a = rim.front();
    const PixelPoint b = rim[rim.size() / 2];
    const PixelPoint c = rim.back();
    const double d = 2 * (a.x * (b.y - c.y) + b.x * (c.y - a.y) + c.x * (a.y - b.y));
    if (std::abs(d) < 1e-9) return std::nullopt;
    const double aa = a.x * a.x + a.y * a.y;
    const double bb = b.x * b.x + b.y * b.y;
    const double cc = c.x * c.x + c.y * c.y;
    Circle circle;
    circle.centre = {(aa * (b.y - c.y) + bb * (c.y - a.y) + cc * (a.y - b.y)) / d,
                     (aa * (c.x - b.x) + bb * (a.x - c.x) + cc * (b.x - a.x)) / d};
    circle.radius = std::hypot(a.x - circle.centre.x, a.y - circle.centre.y);
    return circle;
}

std::optional<Circle> circleOf(const Mark& mark) {
    if (mark.kind != MarkKind::Circle) return std::nullopt;
    if (mark.fit && mark.fit->radius) return Circle{mark.fit->centre, *mark.fit->radius};
    return throughRim(mark.points);
}

QFont labelFont() {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(7);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

void drawLabel(QPainter& painter, const QString& label, const QPointF& beside, const QRectF& within,
               const QColor& colour) {
    painter.setFont(labelFont());
    const QFontMetricsF metrics(labelFont());
    QRectF plate(0, 0, metrics.horizontalAdvance(label) + 5, metrics.height() + 1);
    plate.moveCenter(beside + QPointF(0, -plate.height() / 2 - 4));
    if (plate.top() < within.top() + 2) plate.moveTop(beside.y() + 4);
    plate.moveLeft(std::clamp(plate.left(), within.left() + 2,
                              std::max(within.left() + 2, within.right() - 2 - plate.width())));
    plate.moveTop(std::clamp(plate.top(), within.top() + 2,
                             std::max(within.top() + 2, within.bottom() - 2 - plate.height())));
    painter.setPen(QPen(colour, 0.4));
    painter.setBrush(kPaper);
    painter.drawRect(plate);
    painter.setPen(kInk);
    painter.drawText(QPointF(plate.left() + 2.5, plate.top() + 0.5 + metrics.ascent()), label);
}

}  // namespace

QPainterPath markPath(const Mark& mark, const ToFigure& toFigure, double pointsPerPixel) {
    QPainterPath path;
    if (const auto circle = circleOf(mark)) {
        const double r = circle->radius * pointsPerPixel;
        path.addEllipse(toFigure(circle->centre), r, r);
        return path;
    }
    if (mark.kind == MarkKind::Ellipse && mark.fit && mark.fit->axes) {
        const double angle = mark.fit->angle.value_or(0);
        for (int i = 0; i <= 72; ++i) {
            const double t = 2 * std::numbers::pi * i / 72;
            const double u = (*mark.fit->axes)[0] * std::cos(t);
            const double v = (*mark.fit->axes)[1] * std::sin(t);
            const QPointF at =
                toFigure({mark.fit->centre.x + u * std::cos(angle) - v * std::sin(angle),
                          mark.fit->centre.y + u * std::sin(angle) + v * std::cos(angle)});
            i == 0 ? path.moveTo(at) : path.lineTo(at);
        }
        return path;
    }
    if (mark.points.size() == 1 || mark.kind == MarkKind::Point) {
        for (const PixelPoint& point : mark.points) {
            const QPointF at = toFigure(point);
            path.moveTo(at - QPointF(5, 0));
            path.lineTo(at + QPointF(5, 0));
            path.moveTo(at - QPointF(0, 5));
            path.lineTo(at + QPointF(0, 5));
        }
        return path;
    }
    for (std::size_t i = 0; i < mark.points.size(); ++i)
        i == 0 ? path.moveTo(toFigure(mark.points[i])) : path.lineTo(toFigure(mark.points[i]));
    const bool jaws = mark.kind == MarkKind::Segment || mark.kind == MarkKind::Pattern;
    if (jaws && mark.points.size() >= 2) {
        const QPointF a = toFigure(mark.points.front());
        const QPointF b = toFigure(mark.points.back());
        const double length = std::hypot(b.x() - a.x(), b.y() - a.y());
        if (length > 1e-6) {
            const QPointF across(-(b.y() - a.y()) / length * 5, (b.x() - a.x()) / length * 5);
            for (const PixelPoint& point : mark.points) {
                const QPointF at = toFigure(point);
                path.moveTo(at - across);
                path.lineTo(at + across);
            }
        }
    }
    return path;
}

QRectF markBounds(const Mark& mark) {
    if (const auto circle = circleOf(mark))
        return {circle->centre.x - circle->radius, circle->centre.y - circle->radius,
                2 * circle->radius, 2 * circle->radius};
    double left = 0;
    double right = 0;
    double top = 0;
    double bottom = 0;
    bool first = true;
    for (const PixelPoint& p : mark.points) {
        left = first ? p.x : std::min(left, p.x);
        right = first ? p.x : std::max(right, p.x);
        top = first ? p.y : std::min(top, p.y);
        bottom = first ? p.y : std::max(bottom, p.y);
        first = false;
    }
    return {QPointF(left, top), QPointF(right, bottom)};
}

void drawMark(QPainter& painter, const Mark& mark, MarkRole role, const ToFigure& toFigure,
              double pointsPerPixel, const QString& label, const QRectF& within) {
    const QPainterPath path = markPath(mark, toFigure, pointsPerPixel);
    painter.setBrush(Qt::NoBrush);
    const QColor colour = role == MarkRole::Wanted ? kBluePencil : kInk;
    QPen under(kPaper, role == MarkRole::Wanted ? 2.4 : 2.0);
    under.setCapStyle(Qt::FlatCap);
    painter.setPen(under);
    painter.drawPath(path);
    QPen over(colour, role == MarkRole::Wanted ? 1.1 : 0.9);
    over.setCapStyle(Qt::FlatCap);
    if (role == MarkRole::Known) over.setDashPattern({4, 2.5});
    painter.setPen(over);
    painter.drawPath(path);
    if (label.isEmpty() || mark.points.empty()) return;
    const QRectF box = markBounds(mark);
    const PixelPoint middle{box.center().x(), box.center().y()};
    QPointF at = toFigure(middle);
    if (const auto circle = circleOf(mark)) at.ry() -= circle->radius * pointsPerPixel;
    drawLabel(painter, label, at, within, colour);
}

void drawScaleBar(QPainter& painter, double inchesPerPoint, const QRectF& within) {
    struct Round {
        double inches;
        const char* words;
    };
    static constexpr std::array<Round, 15> kRounds{{{240, "20 ft (6.10 m)"},
                                                    {120, "10 ft (3.05 m)"},
                                                    {60, "5 ft (1.52 m)"},
                                                    {36, "3 ft (914 mm)"},
                                                    {24, "2 ft (610 mm)"},
                                                    {12, "1 ft (305 mm)"},
                                                    {6, "6 in (152 mm)"},
                                                    {3, "3 in (76 mm)"},
                                                    {2, "2 in (51 mm)"},
                                                    {1, "1 in (25 mm)"},
                                                    {0.5, "½ in (13 mm)"},
                                                    {0.25, "¼ in (6.4 mm)"},
                                                    {0.125, "⅛ in (3.2 mm)"},
                                                    {0.0625, "1⁄16 in (1.6 mm)"},
                                                    {0.03125, "1⁄32 in (0.8 mm)"}}};
    if (!(inchesPerPoint > 0)) return;
    const auto* chosen = std::find_if(kRounds.begin(), kRounds.end(), [&](const Round& round) {
        return round.inches / inchesPerPoint <= within.width() / 3;
    });
    if (chosen == kRounds.end()) return;
    const double length = chosen->inches / inchesPerPoint;
    const QString label = QString::fromUtf8(chosen->words);
    const QFontMetricsF metrics(labelFont());
    const double wide = std::max(length, metrics.horizontalAdvance(label)) + 10;
    const QRectF plate(within.left() + 4, within.bottom() - 4 - metrics.height() - 9, wide,
                       metrics.height() + 9);
    painter.setPen(QPen(kHairline, 0.4));
    painter.setBrush(kPaper);
    painter.drawRect(plate);
    painter.setFont(labelFont());
    painter.setPen(kInk);
    painter.drawText(QPointF(plate.left() + 5, plate.top() + 1 + metrics.ascent()), label);
    const double y = plate.bottom() - 5;
    painter.setPen(QPen(kInk, 0.7));
    painter.setBrush(kInk);
    painter.drawRect(QRectF(plate.left() + 5, y - 1.5, length / 2, 3));
    painter.setBrush(kPaper);
    painter.drawRect(QRectF(plate.left() + 5 + length / 2, y - 1.5, length / 2, 3));
}

}  // namespace app::report

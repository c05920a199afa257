#include "app/report/figure/grade_mark.h"

#include "app/report/figure/figure_style.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace app::report::figure {

using evidence::record::Grade;

namespace {

QString words(const char* text) {
    return QCoreApplication::translate("Grade", text);
}

QPainterPath crossPath(const QRectF& box) {
    const double arm = box.width() * 0.17;
    QPainterPath bar;
    bar.addRect(QRectF(-box.width() * 0.62, -arm, box.width() * 1.24, 2 * arm));
    QTransform one;
    one.translate(box.center().x(), box.center().y());
    one.rotate(45);
    QTransform two;
    two.translate(box.center().x(), box.center().y());
    two.rotate(-45);
    return one.map(bar).united(two.map(bar)).simplified();
}

QPainterPath shapePath(Grade grade, const QRectF& box) {
    QPainterPath path;
    switch (grade) {
        case Grade::InHand:
        case Grade::BoxedIn:
            path.addRect(box.adjusted(0.5, 0.5, -0.5, -0.5));
            break;
        case Grade::Figured:
        case Grade::CarriedOver:
            path.addEllipse(box);
            break;
        case Grade::TakenOff:
            path.moveTo(box.center().x(), box.top());
            path.lineTo(box.right(), box.bottom());
            path.lineTo(box.left(), box.bottom());
            path.closeSubpath();
            break;
        case Grade::OurCall:
            path = crossPath(box);
            break;
        case Grade::Blank:
            path.addRect(QRectF(box.left(), box.center().y() - box.height() * 0.14, box.width(),
                                box.height() * 0.28));
            break;
    }
    return path;
}

bool isOpen(Grade grade) {
    return grade == Grade::BoxedIn || grade == Grade::CarriedOver;
}

void hatch(QPainter& painter, const QRectF& box, double step, double slant) {
    for (double x = box.left() - box.height(); x < box.right() + box.height(); x += step)
        painter.drawLine(QPointF(x, slant > 0 ? box.bottom() : box.top()),
                         QPointF(x + box.height(), slant > 0 ? box.top() : box.bottom()));
}

}  // namespace

QColor gradeColour(Grade grade) {
    switch (grade) {
        case Grade::InHand:
            return {0x14, 0x32, 0x3F};
        case Grade::Figured:
            return {0x1F, 0x5A, 0x73};
        case Grade::TakenOff:
            return {0x3F, 0x86, 0xA3};
        case Grade::BoxedIn:
            return {0x8F, 0xB3, 0xB5};
        case Grade::CarriedOver:
            return {0xD9, 0xB2, 0x6A};
        case Grade::OurCall:
            return {0xC9, 0x54, 0x2F};
        case Grade::Blank:
            return {0x9A, 0xA0, 0xA6};
    }
    return {};
}

QString gradeLetter(Grade grade) {
    if (grade == Grade::Blank) return QStringLiteral("–");
    const auto name = evidence::record::nameOf(grade);
    return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString gradeName(Grade grade) {
    switch (grade) {
        case Grade::InHand:
            return words(QT_TRANSLATE_NOOP("Grade", "In hand"));
        case Grade::Figured:
            return words(QT_TRANSLATE_NOOP("Grade", "Figured"));
        case Grade::TakenOff:
            return words(QT_TRANSLATE_NOOP("Grade", "Taken off"));
        case Grade::BoxedIn:
            return words(QT_TRANSLATE_NOOP("Grade", "Boxed in"));
        case Grade::CarriedOver:
            return words(QT_TRANSLATE_NOOP("Grade", "Carried over"));
        case Grade::OurCall:
            return words(QT_TRANSLATE_NOOP("Grade", "Our call"));
        case Grade::Blank:
            return words(QT_TRANSLATE_NOOP("Grade", "Blank"));
    }
    return {};
}

QString gradeMeaning(Grade grade) {
    switch (grade) {
        case Grade::InHand:
            return words(QT_TRANSLATE_NOOP(
                "Grade",
                "We hold the part itself, unaltered at this feature, or two independent "
                "period witnesses state this size and agree."));
        case Grade::Figured:
            return words(QT_TRANSLATE_NOOP(
                "Grade", "One period witness states this very size in figures or words."));
        case Grade::TakenOff:
            return words(QT_TRANSLATE_NOOP("Grade",
                                           "Measured from a drawing or picture whose scale rests "
                                           "on better evidence or a known reference."));
        case Grade::BoxedIn:
            return words(QT_TRANSLATE_NOOP(
                "Grade", "Not measured directly; held between limits or neighbours."));
        case Grade::CarriedOver:
            return words(QT_TRANSLATE_NOOP("Grade",
                                           "Comes from a relative, a later state, trade "
                                           "practice or a handbook."));
        case Grade::OurCall:
            return words(QT_TRANSLATE_NOOP(
                "Grade", "Chosen by us; no evidence picks this value over its rivals."));
        case Grade::Blank:
            return words(QT_TRANSLATE_NOOP("Grade", "No value, or the evidence runs in a loop."));
    }
    return {};
}

void drawGradeMark(QPainter& painter, const QRectF& box, Grade grade, const QColor& ink,
                   const QColor& paper) {
    const double side = std::min(box.width(), box.height());
    const QRectF square(box.center().x() - side / 2, box.center().y() - side / 2, side, side);
    const QPainterPath outer = shapePath(grade, square);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(ink, std::max(0.5, side / 14)));
    painter.setBrush(gradeColour(grade));
    painter.drawPath(outer);
    if (isOpen(grade)) {
        const double ring = side * 0.26;
        // On a dark ground the ink is the lighter of the two, and an open mark must look open.
        painter.setBrush(ink.lightness() > paper.lightness() ? ink : paper);
        painter.drawPath(shapePath(grade, square.adjusted(ring, ring, -ring, -ring)));
    }
    painter.restore();
}

void drawGradeFill(QPainter& painter, const QRectF& box, Grade grade, const QColor& ink,
                   const QColor& paper) {
    const QColor colour = gradeColour(grade);
    painter.save();
    painter.setClipRect(box, Qt::IntersectClip);
    painter.fillRect(box, grade == Grade::InHand || grade == Grade::Figured
                              ? colour
                              : blended(paper, colour, grade == Grade::Blank ? 0.35 : 0.75));
    const double step = 4;
    painter.setPen(QPen(blended(colour, grade == Grade::Figured ? paper : ink, 0.55), 0.8));
    switch (grade) {
        case Grade::InHand:
            break;
        case Grade::Figured:
            painter.drawLine(QPointF(box.left(), box.center().y()),
                             QPointF(box.right(), box.center().y()));
            break;
        case Grade::TakenOff:
            hatch(painter, box, step, 1);
            break;
        case Grade::BoxedIn:
            hatch(painter, box, 2 * step, -1);
            break;
        case Grade::CarriedOver:
            for (double x = box.left() + step / 2; x < box.right(); x += step)
                painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
            break;
        case Grade::OurCall:
            hatch(painter, box, step, 1);
            hatch(painter, box, step, -1);
            break;
        case Grade::Blank:
            break;
    }
    painter.setClipping(false);
    painter.setPen(QPen(ink, 0.6));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
    painter.restore();
}

}  // namespace app::report::figure

#include "app/report/svg_figure.h"

#include <QBuffer>
#include <QPainter>
#include <QRegularExpression>
#include <QSvgGenerator>

#include <cmath>

namespace app::report {

QByteArray inlineSvg(const Figure& figure, const QString& cssClass) {
    const QSize whole(int(std::ceil(figure.size.width())), int(std::ceil(figure.size.height())));
    QByteArray bytes;
    {
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        QSvgGenerator generator;
        generator.setOutputDevice(&buffer);
        generator.setResolution(96);
        generator.setSize(whole);
        generator.setViewBox(QRect(QPoint(0, 0), whole));
        QPainter painter(&generator);
        figure.paint(painter, QRectF(QPointF(0, 0), figure.size));
    }
    QString svg = QString::fromUtf8(bytes);
    svg = svg.mid(std::max<qsizetype>(0, svg.indexOf(QStringLiteral("<svg"))));
    // The generator's own head: millimetres, a title of its own, a version that HTML does not need.
    const qsizetype headEnd = svg.indexOf(QLatin1Char('>'));
    static const QRegularExpression kTitle(
        QStringLiteral("<title>.*?</title>\\s*|<desc>.*?</desc>\\s*"),
        QRegularExpression::DotMatchesEverythingOption);
    QString body = svg.mid(headEnd + 1);
    body.replace(kTitle, QString());
    body.replace(QStringLiteral("xlink:href"), QStringLiteral("href"));
    body.replace(QStringLiteral("font-family=\"DejaVu Sans\""),
                 QStringLiteral("font-family=\"DejaVu Sans, Verdana, sans-serif\""));
    const QString name = figure.description.isEmpty() ? figure.caption.plain() : figure.description;
    const QString head =
        QStringLiteral(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"%1\" width=\"%2\" height=\"%3\" "
            "viewBox=\"0 0 %2 %3\" role=\"img\" aria-label=\"%4\">")
            .arg(cssClass, QString::number(whole.width()), QString::number(whole.height()),
                 name.simplified().toHtmlEscaped());
    return (head + body.trimmed()).toUtf8();
}

}  // namespace app::report

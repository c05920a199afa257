#include "app/report/svg_figure.h"

#include <QBuffer>
#include <QImageWriter>
#include <QPainter>
#include <QRegularExpression>
#include <QSvgGenerator>

#include <cmath>
#include <stdexcept>

namespace app::report {

namespace {

// Grain and paper fibres survive at this quality; ink lines show no ringing at the size shown.
constexpr int kJpegQuality = 80;

QByteArray jpegOf(const QImage& pixels) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "jpeg");
    writer.setQuality(kJpegQuality);
    writer.setOptimizedWrite(true);
    writer.setProgressiveScanWrite(true);
    if (!writer.write(pixels))
        throw std::runtime_error("cannot write a picture as JPEG: " +
                                 writer.errorString().toStdString());
    return bytes;
}

// The generator writes every property of its pen and font into every group; what is the default, is
// said again by the text itself, or holds nothing, is half of the file.
void slim(QString& body) {
    static const QRegularExpression kHead(QStringLiteral("<title>.*?</title>|<desc>.*?</desc>"),
                                          QRegularExpression::DotMatchesEverythingOption);
    static const QRegularExpression kDefaults(
        QStringLiteral(" ?(stroke-opacity=\"1\"|fill-opacity=\"1\"|vector-effect=\"none\"|"
                       "transform=\"matrix\\(1,0,0,1,0,0\\)\"|stroke-dashoffset=\"0\"|"
                       "font-style=\"normal\"|font-weight=\"400\")"));
    static const QRegularExpression kGroupFont(QStringLiteral(
        "(<g [^>]*?) *font-family=\"[^\"]*\" font-size=\"[^\"]*\"( font-weight=\"[^\"]*\")?"));
    static const QRegularExpression kEmpty(QStringLiteral("<g [^>]*>\\s*</g>|<defs>\\s*</defs>"));
    static const QRegularExpression kSpace(QStringLiteral("\\s*\n\\s*"));
    static const QRegularExpression kBeforeEnd(QStringLiteral(" +(/?>)"));
    body.remove(kHead);
    body.replace(kSpace, QStringLiteral(" "));
    body.remove(kDefaults);
    body.replace(kGroupFont, QStringLiteral("\\1"));
    body.remove(kEmpty);
    body.replace(kBeforeEnd, QStringLiteral("\\1"));
    body.replace(QStringLiteral("> <"), QStringLiteral("><"));
}

}  // namespace

QByteArray SvgPictures::element(const std::shared_ptr<const Picture>& picture, QSizeF size) {
    if (!picture || picture->pixels.isNull()) return {};
    const auto [place, fresh] = m_stored.emplace(picture, int(m_stored.size()) + 1);
    const QByteArray id = "picture-" + QByteArray::number(place->second);
    if (!fresh) return "<use href=\"#" + id + "\"/>";
    return "<image id=\"" + id + "\" width=\"" + QByteArray::number(size.width()) + "\" height=\"" +
           QByteArray::number(size.height()) +
           "\" preserveAspectRatio=\"none\" href=\"data:image/jpeg;base64," +
           jpegOf(picture->pixels).toBase64() + "\"/>";
}

QByteArray inlineSvg(const Figure& figure, const QString& cssClass, double enlarged,
                     SvgPictures& pictures) {
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
    QString body = svg.mid(svg.indexOf(QLatin1Char('>')) + 1);
    slim(body);
    body.replace(QStringLiteral("xlink:href"), QStringLiteral("href"));
    body.replace(QStringLiteral("font-family=\"DejaVu Sans\""),
                 QStringLiteral("font-family=\"DejaVu Sans, Verdana, sans-serif\""));
    const QString name = figure.description.isEmpty() ? figure.caption.plain() : figure.description;
    const QString head =
        QStringLiteral(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"%1\" width=\"%2\" height=\"%3\" "
            "viewBox=\"0 0 %4 %5\" role=\"img\" aria-label=\"%6\">")
            .arg(cssClass, QString::number(std::lround(whole.width() * enlarged)),
                 QString::number(std::lround(whole.height() * enlarged)),
                 QString::number(whole.width()), QString::number(whole.height()),
                 name.simplified().toHtmlEscaped());
    return head.toUtf8() + pictures.element(figure.picture, figure.size) + body.trimmed().toUtf8();
}

}  // namespace app::report

#include "app/report/figure/thread_svg.h"

#include "app/report/figure/thread_figure.h"

#include <QBuffer>
#include <QPainter>
#include <QSvgGenerator>

namespace app::report::figure {

namespace {

constexpr double kWidth = 960;

}  // namespace

std::string threadSvg(const evidence::judgement::Thread& thread, const std::string& title) {
    const FigureStyle style;
    const ThreadLayout layout = layoutThread(thread, kWidth, style);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setTitle(QString::fromStdString(title));
    generator.setSize(layout.size.toSize());
    generator.setViewBox(QRectF(QPointF(0, 0), layout.size));
    QPainter painter(&generator);
    painter.fillRect(QRectF(QPointF(0, 0), layout.size), Qt::white);
    drawThread(painter, thread, layout, style);
    painter.end();
    return bytes.toStdString();
}

}  // namespace app::report::figure

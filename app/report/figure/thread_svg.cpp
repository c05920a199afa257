#include "app/report/figure/thread_svg.h"

#include "app/report/figure/thread_figure.h"

#include <QBuffer>
#include <QPainter>
#include <QSvgGenerator>

namespace app::report::figure {

namespace {

constexpr double kWidth = 960;
constexpr double kMargin = 3;  // room for the lines of the outermost boxes

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
    const QRectF page =
        QRectF(QPointF(0, 0), layout.size).marginsAdded({kMargin, kMargin, kMargin, kMargin});
    generator.setSize(page.size().toSize());
    generator.setViewBox(page);
    QPainter painter(&generator);
    painter.fillRect(page, Qt::white);
    drawThread(painter, thread, layout, style);
    painter.end();
    return bytes.toStdString();
}

}  // namespace app::report::figure

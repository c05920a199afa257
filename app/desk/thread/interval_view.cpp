#include "app/desk/thread/interval_view.h"

#include "app/desk/look/look.h"

#include <QPainter>

#include <cmath>

namespace app::desk::thread {

using look::kGrid;

IntervalView::IntervalView(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Readings and the size from all evidence together"));
    setToolTip(
        tr("Each reading with its 95 % interval; the band is that of all evidence together, "
           "a blue line the ruled value."));
}

void IntervalView::show(report::figure::IntervalPlot plot) {
    m_plot = std::move(plot);
    updateGeometry();
    update();
}

QSize IntervalView::minimumSizeHint() const {
    const double high = report::figure::intervalPlotHeight(m_plot, look::figureStyle());
    return {50 * kGrid, static_cast<int>(std::ceil(high)) + 4 * kGrid};
}

void IntervalView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), look::colours().paper);
    const auto style = look::figureStyle();
    const double high = report::figure::intervalPlotHeight(m_plot, style);
    report::figure::drawIntervalPlot(
        painter, QRectF(2 * kGrid, 2 * kGrid, width() - 4.0 * kGrid, high), m_plot, style);
}

}  // namespace app::desk::thread

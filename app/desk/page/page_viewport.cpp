#include "app/desk/page/page_viewport.h"

#include <algorithm>

namespace app::desk::page {

void PageViewport::setPage(const QSizeF& page) {
    m_page = page;
    showWhole();
}

void PageViewport::setView(const QSizeF& view) {
    const QPointF middle = visible().center();
    m_view = view;
    m_whole ? showWhole() : centreOn(middle);
}

QRectF PageViewport::toView(const QRectF& page) const {
    return {toView(page.topLeft()), toView(page.bottomRight())};
}

QRectF PageViewport::visible() const {
    return {toPage(QPointF(0, 0)), toPage(QPointF(m_view.width(), m_view.height()))};
}

void PageViewport::zoomAt(const QPointF& at, double factor) {
    const double least = std::min(wholeZoom(), 1.0) / 2;
    const double zoom = std::clamp(m_zoom * factor, least, std::max(kGreatest, wholeZoom()));
    if (zoom == m_zoom) return;
    m_shift = at - (zoom / m_zoom) * (at - m_shift);
    m_zoom = zoom;
    m_whole = false;
}

void PageViewport::panBy(const QPointF& offset) {
    m_shift += offset;
    m_whole = false;
    const QRectF page = pageBox();
    const QPointF middle = visible().center();
    centreOn({std::clamp(middle.x(), page.left(), page.right()),
              std::clamp(middle.y(), page.top(), page.bottom())});
}

void PageViewport::showWhole() {
    m_zoom = wholeZoom();
    centreOn(pageBox().center());
    m_whole = true;
}

void PageViewport::showClosely(const QRectF& box) {
    constexpr double kShare = 0.4;
    const double fitting = std::min(kShare * m_view.width() / std::max(box.width(), 1.0),
                                    kShare * m_view.height() / std::max(box.height(), 1.0));
    m_zoom = std::max(std::min(fitting, 4.0), wholeZoom());
    m_whole = false;
    centreOn(box.center());
}

bool PageViewport::showsWell(const QRectF& box) const {
    constexpr double kDot = 12;
    const double size = m_zoom * std::max(box.width(), box.height());
    const QRectF seen = visible();
    return seen.contains(box.topLeft()) && seen.contains(box.bottomRight()) && size >= kDot;
}

PageViewport PageViewport::magnified(const QPointF& at, double factor) const {
    PageViewport glass = *this;
    glass.m_shift = at - factor * (at - m_shift);
    glass.m_zoom = factor * m_zoom;
    glass.m_whole = false;
    return glass;
}

double PageViewport::wholeZoom() const {
    return std::min({std::max(m_view.width() - 2 * kMargin, 1.0) / m_page.width(),
                     std::max(m_view.height() - 2 * kMargin, 1.0) / m_page.height(), kGreatest});
}

void PageViewport::centreOn(const QPointF& page) {
    m_shift = QPointF(m_view.width() / 2, m_view.height() / 2) - m_zoom * page;
}

}  // namespace app::desk::page

#pragma once

#include <QPointF>
#include <QRectF>
#include <QSizeF>

namespace app::desk::page {

/// Where on the screen a page lies. Page coordinates: upright pixels, origin at the centre of the
/// top-left pixel, so the page covers −½ … width − ½. View coordinates: logical pixels of the
/// widget. view = shift + zoom · page.
class PageViewport {
  public:
    static constexpr double kMargin = 12;    ///< view px left free around a page shown whole
    static constexpr double kGreatest = 64;  ///< view px that one page pixel may take

    /// Another page: it is shown whole.
    void setPage(const QSizeF& page);
    /// The view was resized: a page that was shown whole stays so, else the middle stays.
    void setView(const QSizeF& view);

    [[nodiscard]] double zoom() const { return m_zoom; }
    [[nodiscard]] bool wholeShown() const { return m_whole; }
    [[nodiscard]] QRectF pageBox() const { return {QPointF(-0.5, -0.5), m_page}; }

    [[nodiscard]] QPointF toView(const QPointF& page) const { return m_shift + m_zoom * page; }
    [[nodiscard]] QPointF toPage(const QPointF& view) const { return (view - m_shift) / m_zoom; }
    [[nodiscard]] QRectF toView(const QRectF& page) const;
    /// What the view covers, in page coordinates; may reach beyond the page.
    [[nodiscard]] QRectF visible() const;

    /// Zooms by `factor` as far as the limits go; the point of the page under `at` stays there.
    void zoomAt(const QPointF& at, double factor);
    /// Moves the picture; the middle of the view never leaves the page.
    void panBy(const QPointF& offset);
    void showWhole();
    /// Brings `box` into the middle, filling two fifths of the view, never beyond 400 %.
    void showClosely(const QRectF& box);
    /// Whether `box` lies in view and is neither a dot nor far beyond the view.
    [[nodiscard]] bool showsWell(const QRectF& box) const;

    /// The same place seen through a glass that enlarges `factor` times about `at`.
    [[nodiscard]] PageViewport magnified(const QPointF& at, double factor) const;

  private:
    [[nodiscard]] double wholeZoom() const;
    void centreOn(const QPointF& page);

    QSizeF m_page{1, 1};
    QSizeF m_view{1, 1};
    double m_zoom = 1;
    QPointF m_shift;
    bool m_whole = true;
};

}  // namespace app::desk::page

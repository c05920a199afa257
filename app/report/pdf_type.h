#pragma once

#include "app/report/document.h"

#include <QColor>
#include <QFont>
#include <QPointF>
#include <QRectF>
#include <QTextLayout>

#include <memory>
#include <set>
#include <vector>

class QPainter;
class QPaintDevice;

/// Type as it is set on paper. All lengths are points; the device has kUnits of its own to a point,
/// so that glyph widths are those of the design and not of a screen.
namespace app::report {

inline constexpr int kUnits = 20;
inline constexpr int kPdfResolution = 72 * kUnits;

struct Face {
    QString family = QStringLiteral("DejaVu Serif");
    double size = 8.6;
    bool bold = false;
    Tone tone = Tone::Ink;
    double leading = 1.32;  ///< line height over size
    Align align = Align::Left;
};

[[nodiscard]] QColor colourOf(Tone tone);
[[nodiscard]] QFont fontOf(const Face& face);

/// A text broken into lines of a width. Immutable; may be drawn in slices.
class SetText {
  public:
    /// Links to anchors that are not among `anchors` are set like other words.
    SetText(const Text& text, const Face& face, double width, QPaintDevice* device,
            const std::set<QString>& anchors);

    [[nodiscard]] double lineHeight() const { return m_lineHeight; }
    [[nodiscard]] int lines() const;
    [[nodiscard]] double height() const { return lineHeight() * lines(); }
    [[nodiscard]] double naturalWidth() const;

    /// Where a link's words stand, relative to the text's top left, points.
    struct LinkPlace {
        QRectF rect;
        QString target;
    };
    /// Draws lines `first` … `last` − 1 with the top of the first at `at`; returns the places of
    /// links in them.
    std::vector<LinkPlace> draw(QPainter& painter, const QPointF& at, int first, int last) const;

  private:
    struct LinkRange {
        int start = 0;
        int end = 0;
        QString target;
    };
    Face m_face;
    std::vector<LinkRange> m_links;
    double m_lineHeight = 0;
    std::unique_ptr<QTextLayout> m_layout;
};

}  // namespace app::report

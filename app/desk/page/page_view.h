#pragma once

#include "app/desk/page/label_places.h"
#include "app/desk/page/page_marks.h"
#include "app/desk/page/page_viewport.h"
#include "app/desk/page/tile_source.h"

#include <QString>
#include <QWidget>

#include <optional>
#include <vector>

namespace app::desk::page {

/// A mark that is being made.
struct Draft {
    evidence::record::Mark mark;
    bool snapped = false;  ///< its ends lie where the pixels show an edge or line
};

/// The picture with its marks, and the hand that moves it: the wheel zooms to the pointer, the
/// middle button (or the left one, while looking) drags the page, a double click shows it whole.
/// What the left button does otherwise it only tells, in page coordinates.
class PageView : public QWidget {
    Q_OBJECT

  public:
    enum class Hand { Looks, Marks };

    explicit PageView(TileSource& tiles, QWidget* parent = nullptr);

    void setHand(Hand hand);
    void setMarks(PageMarks marks, double defaultU);
    void setChosen(const evidence::record::MarkId& mark);
    void setDraft(const std::optional<Draft>& draft);
    /// A line of live figures at the pointer; empty: none.
    void setNote(const QString& words);
    /// What stands in the middle where there is no picture.
    void setInstead(const QString& words);
    [[nodiscard]] const QString& instead() const { return m_instead; }

    [[nodiscard]] const PageViewport& viewport() const { return m_viewport; }
    [[nodiscard]] const PageMarks& marks() const { return m_marks; }

    void zoomIn();
    void zoomOut();
    void showWhole();
    void showClosely(const evidence::record::MarkId& mark);
    /// Moves only where the mark is not well in view already.
    void bringIntoView(const evidence::record::MarkId& mark);
    void showGlass(bool shown);

  Q_SIGNALS:
    void markClicked(const evidence::record::MarkId& mark);
    void pressed(const QPointF& page, Qt::KeyboardModifiers keys);
    void moved(const QPointF& page, Qt::KeyboardModifiers keys);
    void released(const QPointF& page, Qt::KeyboardModifiers keys);
    /// Escape: what was being made is to be dropped.
    void dropped();
    /// The key that chooses between edges and line centres.
    void otherSnapWanted();

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Drag {
        QPointF from;
        QPointF last;
        bool moved = false;
        Qt::MouseButton button = Qt::NoButton;
    };

    void pageChanged();
    void zoomBy(double factor, const QPointF& at);
    void panWith(const QPointF& pointer);
    [[nodiscard]] const PageMark* markUnder(const QPointF& at) const;
    void updateUnderPointer();
    void updateCursor();
    [[nodiscard]] bool ready() const { return m_tiles.state() == TileSource::State::Ready; }
    [[nodiscard]] bool ownsKey(int key) const;
    void paintScene(QPainter& painter, const PageViewport& viewport, const QRectF& within);
    void paintMarks(QPainter& painter, const PageViewport& viewport);
    void paintLabels(QPainter& painter);

    TileSource& m_tiles;
    PageViewport m_viewport;
    PageMarks m_marks;
    std::vector<Plate> m_plates;  ///< the labels as last painted
    double m_defaultU = 0.5;
    Hand m_hand = Hand::Looks;
    evidence::record::MarkId m_chosen;
    evidence::record::MarkId m_underPointer;
    std::optional<Draft> m_draft;
    QString m_note;
    QString m_instead;
    std::optional<Drag> m_drag;  ///< of the picture
    std::optional<QPointF> m_pointer;
    bool m_glass = false;
};

}  // namespace app::desk::page

#include "app/desk/page/page_view.h"

#include "app/desk/look/look.h"
#include "app/desk/page/glass.h"
#include "app/desk/page/paint_marks.h"
#include "app/desk/page/paint_page.h"
#include "app/report/mark_drawing.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>

#include <cmath>

namespace app::desk::page {

namespace record = evidence::record;

namespace {

constexpr double kStep = 1.25;       ///< one step of zoom
constexpr double kClickReach = 4;    ///< view px that a click may wander
constexpr double kKeyPan = 1.0 / 8;  /// of the view, per arrow key

}  // namespace

PageView::PageView(TileSource& tiles, QWidget* parent) : QWidget(parent), m_tiles(tiles) {
    setObjectName(QStringLiteral("pageView"));
    setAccessibleName(tr("Page"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setMinimumSize(240, 180);
    connect(&m_tiles, &TileSource::changed, this, &PageView::pageChanged);
}

void PageView::pageChanged() {
    if (ready()) m_viewport.setPage(m_tiles.picture()->size());
    m_drag.reset();
    updateCursor();
    update();
}

void PageView::setHand(Hand hand) {
    m_hand = hand;
    updateUnderPointer();
    updateCursor();
}

void PageView::setMarks(PageMarks marks, double defaultU) {
    m_marks = std::move(marks);
    m_plates.clear();
    m_defaultU = defaultU;
    updateUnderPointer();
    update();
}

void PageView::setChosen(const record::MarkId& mark) {
    m_chosen = mark;
    update();
}

void PageView::setDraft(const std::optional<Draft>& draft) {
    m_draft = draft;
    update();
}

void PageView::setNote(const QString& words) {
    m_note = words;
    update();
}

void PageView::setInstead(const QString& words) {
    m_instead = words;
    update();
}

void PageView::zoomIn() {
    zoomBy(kStep, QPointF(rect().center()));
}

void PageView::zoomOut() {
    zoomBy(1 / kStep, QPointF(rect().center()));
}

void PageView::showWhole() {
    m_viewport.showWhole();
    update();
}

void PageView::showClosely(const record::MarkId& mark) {
    const PageMark* known = m_marks.find(mark);
    if (!ready() || known == nullptr) return;
    m_viewport.showClosely(report::markBounds(*known->mark));
    update();
}

void PageView::bringIntoView(const record::MarkId& mark) {
    const PageMark* known = m_marks.find(mark);
    if (known != nullptr && !m_viewport.showsWell(report::markBounds(*known->mark)))
        showClosely(mark);
}

void PageView::showGlass(bool shown) {
    m_glass = shown;
    updateCursor();
    update();
}

bool PageView::ownsKey(int key) const {
    switch (key) {
        case Qt::Key_Plus:
        case Qt::Key_Equal:
        case Qt::Key_Minus:
        case Qt::Key_0:
        case Qt::Key_Left:
        case Qt::Key_Right:
        case Qt::Key_Up:
        case Qt::Key_Down:
        case Qt::Key_Escape:
            return true;
        case Qt::Key_L:
            return m_hand == Hand::Marks;
        default:
            return false;
    }
}

bool PageView::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool plain = !(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier));
        if (plain && ownsKey(key->key())) event->accept();
    }
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const PageMark* mark = m_marks.find(m_underPointer);
        QToolTip::showText(help->globalPos(), mark ? mark->words : QString(), this);
        return true;
    }
    return QWidget::event(event);
}

void PageView::resizeEvent(QResizeEvent*) {
    m_viewport.setView(size());
}

void PageView::wheelEvent(QWheelEvent* event) {
    constexpr double kNotch = 120;
    const QPoint turned = event->angleDelta();
    zoomBy(std::pow(kStep, turned.y() / kNotch), event->position());
    event->accept();
}

void PageView::mousePressEvent(QMouseEvent* event) {
    if (!ready()) return;
    const bool moves = event->button() == Qt::MiddleButton ||
                       (event->button() == Qt::LeftButton && m_hand == Hand::Looks);
    if (moves) {
        m_drag = Drag{event->position(), event->position(), false, event->button()};
        updateCursor();
    } else if (event->button() == Qt::LeftButton) {
        Q_EMIT pressed(m_viewport.toPage(event->position()), event->modifiers());
    }
}

void PageView::mouseMoveEvent(QMouseEvent* event) {
    m_pointer = event->position();
    if (!ready()) return;
    if (m_drag) {
        panWith(event->position());
    } else {
        updateUnderPointer();
        if (m_hand == Hand::Marks)
            Q_EMIT moved(m_viewport.toPage(event->position()), event->modifiers());
    }
    update();
}

void PageView::mouseReleaseEvent(QMouseEvent* event) {
    if (m_drag && event->button() == m_drag->button) {
        const Drag drag = *m_drag;
        m_drag.reset();
        updateCursor();
        const bool click = !drag.moved && m_hand == Hand::Looks && drag.button == Qt::LeftButton;
        if (const PageMark* mark = click ? markUnder(event->position()) : nullptr)
            Q_EMIT markClicked(mark->mark->id);
    } else if (ready() && event->button() == Qt::LeftButton && m_hand == Hand::Marks) {
        Q_EMIT released(m_viewport.toPage(event->position()), event->modifiers());
    }
}

void PageView::mouseDoubleClickEvent(QMouseEvent* event) {
    if (m_hand == Hand::Looks && event->button() == Qt::LeftButton)
        showWhole();
    else
        mousePressEvent(event);
}

void PageView::leaveEvent(QEvent*) {
    m_pointer.reset();
    updateUnderPointer();
    update();
}

void PageView::keyPressEvent(QKeyEvent* event) {
    const double right = kKeyPan * width();
    const double down = kKeyPan * height();
    switch (event->key()) {
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            return zoomIn();
        case Qt::Key_Minus:
            return zoomOut();
        case Qt::Key_0:
            return showWhole();
        case Qt::Key_Left:
            m_viewport.panBy({right, 0});
            return update();
        case Qt::Key_Right:
            m_viewport.panBy({-right, 0});
            return update();
        case Qt::Key_Up:
            m_viewport.panBy({0, down});
            return update();
        case Qt::Key_Down:
            m_viewport.panBy({0, -down});
            return update();
        case Qt::Key_Escape:
            return Q_EMIT dropped();
        case Qt::Key_L:
            if (m_hand == Hand::Marks) return Q_EMIT otherSnapWanted();
            break;
        default:
            break;
    }
    QWidget::keyPressEvent(event);
}

void PageView::zoomBy(double factor, const QPointF& at) {
    if (!ready()) return;
    m_viewport.zoomAt(at, factor);
    updateUnderPointer();
    update();
}

void PageView::panWith(const QPointF& pointer) {
    const QPointF wandered = pointer - m_drag->from;
    if (!m_drag->moved && std::hypot(wandered.x(), wandered.y()) < kClickReach) return;
    m_drag->moved = true;
    m_viewport.panBy(pointer - m_drag->last);
    m_drag->last = pointer;
}

const PageMark* PageView::markUnder(const QPointF& at) const {
    for (const Plate& plate : m_plates)
        if (plate.box.contains(at)) return m_marks.find(plate.mark);
    return markAt(m_marks.marks, m_viewport, at);
}

void PageView::updateUnderPointer() {
    const PageMark* mark = nullptr;
    if (ready() && m_pointer && m_hand == Hand::Looks) mark = markUnder(*m_pointer);
    m_underPointer = mark ? mark->mark->id : record::MarkId{};
}

void PageView::updateCursor() {
    if (!ready())
        setCursor(Qt::ArrowCursor);
    else if (m_drag)
        setCursor(Qt::ClosedHandCursor);
    else if (m_glass)
        setCursor(Qt::BlankCursor);
    else
        setCursor(m_hand == Hand::Looks ? Qt::OpenHandCursor : Qt::CrossCursor);
}

void PageView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), look::colours().panel);
    if (!ready()) {
        painter.setPen(look::colours().graphite);
        painter.drawText(rect().adjusted(24, 24, -24, -24), Qt::AlignCenter | Qt::TextWordWrap,
                         m_instead);
        return;
    }
    paintScene(painter, m_viewport, rect());
    paintMarks(painter, m_viewport);
    paintLabels(painter);
    if (m_glass && m_pointer)
        paintGlass(painter, *m_pointer, m_viewport,
                   [this](QPainter& glass, const PageViewport& viewport, const QRectF& within) {
                       paintScene(glass, viewport, within);
                       paintMarks(glass, viewport);
                   });
    if (!m_note.isEmpty() && m_pointer) {
        const QPointF above = *m_pointer - QPointF(0, 12 + (m_glass ? kGlassRadius : 0));
        paintPlate(painter, plateBeside(above, m_note, rect(), QFontMetricsF(font())), m_note,
                   look::coloursOf(look::Theme::Paper).bluePencil);
    }
}

void PageView::paintScene(QPainter& painter, const PageViewport& viewport, const QRectF& within) {
    paintPage(painter, m_tiles, viewport, within);
}

void PageView::paintMarks(QPainter& painter, const PageViewport& viewport) {
    const auto paint = [&](const PageMark& mark, MarkLook look) {
        paintMark(painter, mark, viewport, look, m_defaultU);
    };
    for (const PageMark& mark : m_marks.marks)
        if (mark.mark->id != m_chosen && mark.mark->id != m_underPointer)
            paint(mark, MarkLook::Plain);
    if (const PageMark* mark = m_marks.find(m_underPointer); mark && m_underPointer != m_chosen)
        paint(*mark, MarkLook::UnderPointer);
    if (const PageMark* mark = m_marks.find(m_chosen)) paint(*mark, MarkLook::Chosen);
    if (m_draft) {
        paint({&m_draft->mark, MarkUse::Loose, {}, {}}, MarkLook::Chosen);
        if (m_draft->snapped) paintSnapped(painter, m_draft->mark, viewport);
    }
}

void PageView::paintLabels(QPainter& painter) {
    const auto& colours = look::coloursOf(look::Theme::Paper);
    m_plates = labelPlaces(m_marks.marks, m_viewport, QRectF(rect()).adjusted(2, 2, -2, -2),
                           QFontMetricsF(painter.font()), {m_chosen, m_underPointer});
    for (const Plate& plate : m_plates)
        paintPlate(painter, plate.box, plate.words,
                   plate.mark == m_chosen ? colours.bluePencil : colours.ink);
}

}  // namespace app::desk::page

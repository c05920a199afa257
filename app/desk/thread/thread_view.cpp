#include "app/desk/thread/thread_view.h"

#include "app/desk/look/look.h"
#include "app/report/document.h"
#include "app/report/figure/grade_mark.h"
#include "app/report/figure/thread_on_paper.h"
#include "app/report/value_words.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace app::desk::thread {

using evidence::judgement::Thread;
using evidence::record::AnyId;
using look::kGrid;

namespace {

constexpr QPoint kMargin(2 * kGrid, kGrid);
constexpr std::size_t kMostRows = 12;
constexpr std::size_t kFewestRows = 3;

report::figure::FigureStyle styleOfThread() {
    auto style = look::figureStyle();
    style.lane = 2.4;
    return style;
}

}  // namespace

ThreadView::ThreadView(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAccessibleName(tr("Thread"));
}

void ThreadView::show(evidence::judgement::Thread thread) {
    m_whole = std::move(thread);
    layOut();
}

bool ThreadView::holds(const AnyId& record) const {
    return std::ranges::any_of(m_whole.nodes,
                               [&](const auto& node) { return node.id == record.text; });
}

void ThreadView::markChosen(const AnyId& record) {
    m_chosen = record;
    update();
}

std::optional<QRect> ThreadView::placeOf(const AnyId& record) const {
    const auto node = nodeOf(record);
    if (!node) return std::nullopt;
    return m_layout.nodes[*node].toAlignedRect().translated(kMargin);
}

void ThreadView::setRoom(const QSize& room) {
    if (room == m_room) return;
    m_room = room;
    layOut();
}

void ThreadView::setStrands(Strands strands) {
    m_strands = strands;
    layOut();
}

bool ThreadView::leavesStrandsOut() const {
    return mainStrands().nodes.size() < m_whole.nodes.size();
}

QSize ThreadView::sizeHint() const {
    return {static_cast<int>(std::ceil(m_layout.size.width())) + 2 * kMargin.x(),
            static_cast<int>(std::ceil(m_layout.size.height())) + 2 * kMargin.y()};
}

report::figure::ThreadLayout ThreadView::laidOut(const Thread& thread) const {
    return report::figure::layoutThread(thread, m_room.width() - 2 * kMargin.x() - 1,
                                        styleOfThread());
}

/// The most strands that the height of the room takes.
Thread ThreadView::mainStrands() const {
    for (std::size_t most = kMostRows; most > kFewestRows; --most) {
        Thread less = report::figure::gatheredThread(m_whole, most);
        if (laidOut(less).size.height() + 2 * kMargin.y() <= m_room.height()) return less;
    }
    return report::figure::gatheredThread(m_whole, kFewestRows);
}

void ThreadView::layOut() {
    m_thread = m_strands == Strands::All ? m_whole : mainStrands();
    m_layout = laidOut(m_thread);
    resize(sizeHint());
    update();
}

void ThreadView::choose(std::size_t node) {
    const std::string& id = m_thread.nodes[node].id;
    if (id.find("/more-") != std::string::npos)
        Q_EMIT allStrandsWanted();
    else
        Q_EMIT nodeChosen({id});
}

std::optional<std::size_t> ThreadView::nodeOf(const AnyId& record) const {
    const auto found =
        std::ranges::find(m_thread.nodes, record.text, &evidence::judgement::ThreadNode::id);
    if (record.empty() || found == m_thread.nodes.end()) return std::nullopt;
    return static_cast<std::size_t>(found - m_thread.nodes.begin());
}

std::optional<std::size_t> ThreadView::nodeUnder(const QPoint& point) const {
    return report::figure::nodeAt(m_layout, point - kMargin);
}

void ThreadView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), look::colours().paper);
    painter.translate(kMargin);
    report::figure::drawThread(painter, m_thread, m_layout, styleOfThread(), nodeOf(m_chosen));
}

void ThreadView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    if (const auto node = nodeUnder(event->pos())) choose(*node);
}

void ThreadView::mouseMoveEvent(QMouseEvent* event) {
    setCursor(nodeUnder(event->pos()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

/// The nearest node in the direction of an arrow key.
std::optional<std::size_t> ThreadView::neighbourOf(std::size_t node, int key) const {
    const QPointF from = m_layout.nodes[node].center();
    const bool sideways = key == Qt::Key_Left || key == Qt::Key_Right;
    const double sign = key == Qt::Key_Left || key == Qt::Key_Up ? -1 : 1;
    std::optional<std::size_t> best;
    double shortest = 0;
    for (std::size_t i = 0; i < m_layout.nodes.size(); ++i) {
        const QPointF way = m_layout.nodes[i].center() - from;
        const double along = sign * (sideways ? way.x() : way.y());
        const double across = std::abs(sideways ? way.y() : way.x());
        // Up and down stay in their column.
        if (along < 1 || (!sideways && across > 1)) continue;
        const double length = along + across / 4;
        if (best && length >= shortest) continue;
        best = i;
        shortest = length;
    }
    return best;
}

void ThreadView::keyPressEvent(QKeyEvent* event) {
    const bool arrow = event->key() == Qt::Key_Left || event->key() == Qt::Key_Right ||
                       event->key() == Qt::Key_Up || event->key() == Qt::Key_Down;
    if (!arrow || m_thread.nodes.empty()) return QWidget::keyPressEvent(event);
    const auto now = nodeOf(m_chosen);
    const auto next = now ? neighbourOf(*now, event->key()) : nodeOf({m_thread.on});
    if (next) choose(*next);
}

QString ThreadView::tipOf(std::size_t node) const {
    const auto& shown = m_thread.nodes[node];
    QStringList lines{QStringLiteral("<b>%1</b>").arg(report::shown(shown.title).toHtmlEscaped()),
                      report::shown(shown.detail).toHtmlEscaped()};
    if (shown.strength != evidence::record::Grade::Blank)
        lines << QStringLiteral("%1, %2").arg(report::figure::gradeLetter(shown.strength),
                                              report::figure::gradeName(shown.strength));
    double share = 0;
    for (const auto& link : m_thread.links)
        if (link.from == node) share += link.share;
    if (share > 0) lines << tr("Share of the doubt: %1").arg(report::percent(std::min(share, 1.0)));
    if (shown.guess) lines << tr("A guess of ours.");
    if (shown.echo) lines << tr("An echo: shown, not counted twice.");
    if (shown.setAside) lines << tr("Set aside: it does not count.");
    lines.removeAll(QString());
    return QStringLiteral("<p>%1</p>").arg(lines.join(QStringLiteral("<br>")));
}

bool ThreadView::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    if (const auto node = nodeUnder(help->pos()))
        QToolTip::showText(help->globalPos(), tipOf(*node), this);
    else
        QToolTip::hideText();
    return true;
}

}  // namespace app::desk::thread

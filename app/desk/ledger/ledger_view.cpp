#include "app/desk/ledger/ledger_view.h"

#include "app/desk/ledger/ledger_delegate.h"
#include "app/desk/ledger/ledger_model.h"
#include "app/desk/look/look.h"

#include <QHeaderView>
#include <QResizeEvent>
#include <QScrollBar>

#include <algorithm>

namespace app::desk::ledger {

namespace {

QString keyOf(const QModelIndex& index) {
    return index.data(LedgerModel::KeyRole).toString();
}

}  // namespace

LedgerView::LedgerView(QWidget* parent) : QTreeView(parent) {
    setTreePosition(LedgerModel::Name);
    setItemDelegate(new LedgerDelegate(this));
    setSelectionBehavior(SelectRows);
    setAllColumnsShowFocus(true);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setIndentation(3 * look::kGrid);
    setAnimated(false);
    setExpandsOnDoubleClick(true);
    header()->setSectionsMovable(false);
    header()->setSectionResizeMode(QHeaderView::Fixed);
    header()->setStretchLastSection(true);
    header()->setMinimumSectionSize(6 * look::kGrid);
    connect(this, &QTreeView::collapsed, this, [this](const QModelIndex& index) {
        if (m_byHand) m_closed.insert(keyOf(index));
    });
    connect(this, &QTreeView::expanded, this, [this](const QModelIndex& index) {
        if (m_byHand) m_closed.remove(keyOf(index));
    });
}

void LedgerView::setModel(QAbstractItemModel* shown) {
    // Before the tree hears of it, which forgets its lines then.
    connect(shown, &QAbstractItemModel::modelAboutToBeReset, this, &LedgerView::remember);
    QTreeView::setModel(shown);
    connect(shown, &QAbstractItemModel::modelReset, this, &LedgerView::restore);
    restore();
}

void LedgerView::openAll() {
    m_byHand = false;
    expandAll();
    m_byHand = true;
}

void LedgerView::openAsLeft() {
    m_byHand = false;
    expandAll();
    for (const QString& key : m_closed)
        if (const QModelIndex index = indexOf(key); index.isValid()) collapse(index);
    m_byHand = true;
}

void LedgerView::markChosen(const QModelIndex& index) {
    if (!index.isValid()) {
        setCurrentIndex({});
        clearSelection();
    } else if (index.siblingAtColumn(0) != currentIndex().siblingAtColumn(0)) {
        setCurrentIndex(index.siblingAtColumn(LedgerModel::Name));
    }
}

void LedgerView::showChosen(const QModelIndex& index) {
    markChosen(index);
    if (index.isValid()) scrollTo(index.siblingAtColumn(LedgerModel::Name));
}

void LedgerView::remember() {
    m_currentKey = keyOf(currentIndex());
    const QModelIndex top = indexAt(QPoint(1, 1));
    m_topKey.reset();
    if (!top.isValid()) return;
    m_topKey = keyOf(top);
    m_topOffset = visualRect(top.siblingAtColumn(0)).top();
}

void LedgerView::restore() {
    openAsLeft();
    if (!m_currentKey.isEmpty())
        if (const QModelIndex index = indexOf(m_currentKey); index.isValid())
            setCurrentIndex(index.siblingAtColumn(LedgerModel::Name));
    if (!m_topKey) return;
    const QModelIndex top = indexOf(*m_topKey);
    if (!top.isValid()) return;
    executeDelayedItemsLayout();
    scrollTo(top, PositionAtTop);
    verticalScrollBar()->setValue(verticalScrollBar()->value() - m_topOffset);
}

QModelIndex LedgerView::indexOf(const QString& key) const {
    if (model() == nullptr || model()->rowCount() == 0) return {};
    const auto found = model()->match(model()->index(0, 0), LedgerModel::KeyRole, key, 1,
                                      Qt::MatchExactly | Qt::MatchRecursive);
    return found.isEmpty() ? QModelIndex() : found.front();
}

void LedgerView::resizeEvent(QResizeEvent* event) {
    // Figures and signs have the width they need; names and margin share the rest, and in a narrow
    // window the bars make room for them.
    constexpr int kWordsNeed = 54 * look::kGrid;
    int rest = viewport()->width();
    for (int column = 0; column < LedgerModel::ColumnCount; ++column)
        if (const int wide = LedgerDelegate::widthOf(column); wide > 0) {
            setColumnWidth(column, wide);
            rest -= wide;
        }
    const bool narrow = rest < kWordsNeed;
    setColumnHidden(LedgerModel::Interval, narrow);
    if (narrow) rest += LedgerDelegate::widthOf(LedgerModel::Interval);
    setColumnWidth(LedgerModel::Name, std::max(24 * look::kGrid, rest / 2));
    const QModelIndex chosen = currentIndex().siblingAtColumn(LedgerModel::Name);
    const bool wasInView = QRect(QPoint(), event->oldSize()).intersects(visualRect(chosen));
    QTreeView::resizeEvent(event);
    // The thread of what is chosen takes room from the ledger: its line must not go with it.
    if (chosen.isValid() && wasInView) scrollTo(chosen);
    if (event->oldSize().width() != event->size().width()) scheduleDelayedItemsLayout();
}

}  // namespace app::desk::ledger

#include "app/desk/ledger/findings_delegate.h"

#include "app/desk/ledger/findings_model.h"
#include "app/desk/look/look.h"
#include "app/desk/look/wrapped_text.h"

#include <QApplication>
#include <QPainter>
#include <QTreeView>

#include <cmath>

namespace app::desk::ledger {

namespace {

using look::kGrid;

constexpr int kEveryLine = 1000;

QString settleWords(const QModelIndex& index) {
    const QString settle = index.data(FindingsModel::SettleRole).toString();
    return settle.isEmpty() ? QString() : FindingsDelegate::tr("To settle it: %1").arg(settle);
}

QFont headingFont() {
    QFont font = look::type(look::Size::Text);
    font.setBold(true);
    return font;
}

double widthOf(const QStyleOptionViewItem& option) {
    const auto* view = qobject_cast<const QTreeView*>(option.widget);
    const int whole = view ? view->viewport()->width() : option.rect.width();
    return std::max(1, whole - 5 * kGrid);
}

QColor pencilOf(const QModelIndex& index) {
    const auto& colours = look::colours();
    if (index.data(FindingsModel::QuietRole).toBool()) return colours.graphite;
    return index.data(FindingsModel::AttentionRole).toBool() ? colours.redPencil : colours.ink;
}

}  // namespace

void FindingsDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
    QStyleOptionViewItem bare(option);
    initStyleOption(&bare, index);
    const QString words = bare.text;
    bare.text.clear();
    const QStyle* style = option.widget ? option.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &bare, painter, option.widget);
    painter->save();
    painter->setPen(pencilOf(index));
    QRectF box = QRectF(option.rect).adjusted(2 * kGrid, kGrid, 0, -kGrid);
    box.setWidth(widthOf(option));
    if (!FindingsModel::findingAt(index)) {
        painter->setFont(headingFont());
        painter->drawText(box, Qt::AlignLeft | Qt::AlignVCenter, words);
        painter->restore();
        return;
    }
    const QFont font = look::type(look::Size::Small);
    painter->setFont(font);
    box.setHeight(look::wrappedHeight(font, words, box.width()));
    look::drawWrapped(*painter, box, words, kEveryLine);
    if (const QString settle = settleWords(index); !settle.isEmpty()) {
        painter->setPen(look::colours().graphite);
        box.moveTop(box.bottom());
        box.setHeight(look::wrappedHeight(font, settle, box.width()));
        look::drawWrapped(*painter, box, settle, kEveryLine);
    }
    painter->restore();
}

QSize FindingsDelegate::sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
    const double width = widthOf(option);
    if (!FindingsModel::findingAt(index)) return {static_cast<int>(width), 8 * kGrid};
    const QFont font = look::type(look::Size::Small);
    double height = look::wrappedHeight(font, index.data(Qt::DisplayRole).toString(), width);
    if (const QString settle = settleWords(index); !settle.isEmpty())
        height += look::wrappedHeight(font, settle, width);
    return {static_cast<int>(width), static_cast<int>(std::ceil(height)) + 3 * kGrid};
}

}  // namespace app::desk::ledger

#pragma once

#include <QStyledItemDelegate>

namespace app::desk::ledger {

/// Draws findings as whole sentences, as tall as they need, with what would settle them below.
class FindingsDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
};

}  // namespace app::desk::ledger

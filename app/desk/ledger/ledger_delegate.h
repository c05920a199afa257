#pragma once

#include <QStyledItemDelegate>

namespace app::desk::ledger {

/// Draws the lines of the ledger: figures aligned at the fraction or the decimal point, interval
/// bars, grade signs, and the margin's words in two lines of pencil.
class LedgerDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

    /// Width that a column of figures, signs or bars needs; 0 for columns of words.
    [[nodiscard]] static int widthOf(int column);
};

}  // namespace app::desk::ledger

#pragma once

#include "app/desk/ledger/ledger_entry.h"

#include <QAbstractItemModel>

namespace app::desk::ledger {

/// The ledger of one judged register as a tree. The judged register never changes; another one
/// resets the model. The tree stands in column `Name`.
class LedgerModel : public QAbstractItemModel {
    Q_OBJECT

  public:
    enum Column { Code, Name, Value, Spread, Interval, Sign, Margin, ColumnCount };
    enum Role {
        EntryRole = Qt::UserRole,  ///< const LedgerEntry*, valid until the next reset
        KeyRole,                   ///< text that names the line in every version of the register
    };

    explicit LedgerModel(QObject* parent = nullptr);
    ~LedgerModel() override;

    void show(std::shared_ptr<const Judged> judged);
    [[nodiscard]] const std::shared_ptr<const Judged>& judged() const { return m_judged; }

    [[nodiscard]] const LedgerNode& root() const { return *m_root; }

    /// The line of a dimension or particular, in column `Code`; invalid where there is none.
    [[nodiscard]] QModelIndex indexOf(const evidence::record::AnyId& size) const;
    /// Null for the root.
    [[nodiscard]] static const LedgerEntry* entryAt(const QModelIndex& index);

    [[nodiscard]] QModelIndex index(int row, int column, const QModelIndex& parent) const override;
    [[nodiscard]] QModelIndex parent(const QModelIndex& child) const override;
    [[nodiscard]] int rowCount(const QModelIndex& parent) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    [[nodiscard]] const LedgerNode& nodeOf(const QModelIndex& index) const;
    [[nodiscard]] QString tip(const LedgerEntry& entry, int column) const;
    [[nodiscard]] QString notesTip(const LedgerEntry& entry) const;

    std::shared_ptr<const Judged> m_judged;
    std::unique_ptr<LedgerNode> m_root;
};

}  // namespace app::desk::ledger

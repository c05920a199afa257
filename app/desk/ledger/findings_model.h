#pragma once

#include "app/desk/analyst.h"

#include <QAbstractItemModel>

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace app::desk::ledger {

/// The findings gathered as settle first, soon, when you can and worth knowing; those acknowledged
/// come last. Two levels: gathering, finding. Empty gatherings are left out.
class FindingsModel : public QAbstractItemModel {
    Q_OBJECT

  public:
    enum Role {
        FindingRole = Qt::UserRole,  ///< index into the analysis's findings, of a finding's row
        SettleRole,                  ///< what would settle it
        AttentionRole,               ///< red pencil
        QuietRole,                   ///< acknowledged
    };

    using QAbstractItemModel::QAbstractItemModel;

    void show(std::shared_ptr<const Judged> judged);
    [[nodiscard]] QModelIndex indexOf(std::size_t finding) const;
    [[nodiscard]] static std::optional<std::size_t> findingAt(const QModelIndex& index);
    /// "3 to settle first · 12 soon": the gatherings that matter, with their counts.
    [[nodiscard]] QString summary() const;

    [[nodiscard]] QModelIndex index(int row, int column, const QModelIndex& parent) const override;
    [[nodiscard]] QModelIndex parent(const QModelIndex& child) const override;
    [[nodiscard]] int rowCount(const QModelIndex& parent) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

  private:
    struct Gathering {
        QString name;
        std::optional<evidence::judgement::Severity> severity;  ///< none: acknowledged
        std::vector<std::size_t> findings;
    };

    std::shared_ptr<const Judged> m_judged;
    std::vector<Gathering> m_gatherings;
};

}  // namespace app::desk::ledger

#pragma once

#include "app/desk/analyst.h"
#include "evidence-core/record/id.h"

#include <QAbstractTableModel>

#include <memory>

namespace app::desk::thread {

/// How each reading of one dimension stands in the net, for those who want the figures. Headings
/// are in plain words, the symbols in their tooltips.
class ExpertModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column {
        Reading,
        Value,
        U,
        Residual,
        Misfit,
        Checked,
        SmallestMistake,
        Pull,
        Share,
        ColumnCount
    };

    using QAbstractTableModel::QAbstractTableModel;

    /// An id that is no dimension's empties the table.
    void show(std::shared_ptr<const Judged> judged, const evidence::record::AnyId& dimension);
    /// The reading of a row.
    [[nodiscard]] evidence::record::AnyId readingAt(int row) const;
    /// How the evidence fits as a whole: of the connected part that the dimension belongs to.
    [[nodiscard]] QString fitWords() const;

    [[nodiscard]] int rowCount(const QModelIndex& parent) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    [[nodiscard]] QString cell(const evidence::judgement::ReadingResult& reading, int column) const;

    std::shared_ptr<const Judged> m_judged;
    const evidence::judgement::DimensionResult* m_result = nullptr;  ///< in m_judged
    QStringList m_names;                                             ///< of the readings
    QString m_unit;
};

}  // namespace app::desk::thread

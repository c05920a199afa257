#pragma once

#include "app/desk/portfolio/portfolio_rows.h"
#include "app/desk/portfolio/thumbnails.h"

#include <QAbstractListModel>

#include <vector>

namespace app::desk::portfolio {

/// The rows of the portfolio for a view; headings cannot be chosen.
class PortfolioModel : public QAbstractListModel {
    Q_OBJECT

  public:
    enum Role {
        KindRole = Qt::UserRole,  ///< int of Row::Kind
        CodeRole,
        FactsRole,  ///< QStringList
        AttentionRole,
        HasPictureRole,
    };

    explicit PortfolioModel(Thumbnails& thumbnails, QObject* parent = nullptr);

    void setRows(std::vector<Row> rows);
    [[nodiscard]] const Row& row(const QModelIndex& index) const;
    /// Where a record stands; invalid where it does not.
    [[nodiscard]] QModelIndex indexOf(const evidence::record::AnyId& record) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

  private:
    void showPicture(const evidence::record::FileId& file);

    Thumbnails& m_thumbnails;
    std::vector<Row> m_rows;
};

}  // namespace app::desk::portfolio

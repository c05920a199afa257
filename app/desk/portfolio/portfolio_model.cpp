#include "app/desk/portfolio/portfolio_model.h"

#include <algorithm>

namespace app::desk::portfolio {

namespace record = evidence::record;

PortfolioModel::PortfolioModel(Thumbnails& thumbnails, QObject* parent)
    : QAbstractListModel(parent), m_thumbnails(thumbnails) {
    connect(&thumbnails, &Thumbnails::arrived, this, &PortfolioModel::showPicture);
}

void PortfolioModel::setRows(std::vector<Row> rows) {
    if (rows == m_rows) return;
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
}

const Row& PortfolioModel::row(const QModelIndex& index) const {
    return m_rows[static_cast<std::size_t>(index.row())];
}

QModelIndex PortfolioModel::indexOf(const record::AnyId& id) const {
    if (id.empty()) return {};
    const auto found = std::ranges::find(m_rows, id, &Row::record);
    return found == m_rows.end() ? QModelIndex() : index(static_cast<int>(found - m_rows.begin()));
}

int PortfolioModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant PortfolioModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& shown = row(index);
    switch (role) {
        case Qt::DisplayRole:
            return shown.title;
        case Qt::ToolTipRole:
            return shown.kind == Row::Kind::Heading
                       ? QVariant()
                       : QVariant((QStringList{shown.title} + shown.facts).join(QLatin1Char('\n')));
        case Qt::DecorationRole:
            return shown.picture.empty() ? QVariant() : QVariant(m_thumbnails.of(shown.picture));
        case KindRole:
            return static_cast<int>(shown.kind);
        case CodeRole:
            return shown.code;
        case FactsRole:
            return shown.facts;
        case AttentionRole:
            return shown.attention;
        case HasPictureRole:
            return !shown.picture.empty();
        default:
            return {};
    }
}

Qt::ItemFlags PortfolioModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) return Qt::NoItemFlags;
    return row(index).kind == Row::Kind::Heading
               ? Qt::ItemFlags(Qt::ItemIsEnabled | Qt::ItemNeverHasChildren)
               : Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
}

void PortfolioModel::showPicture(const record::FileId& file) {
    for (int i = 0; i < rowCount(); ++i)
        if (m_rows[static_cast<std::size_t>(i)].picture == file)
            Q_EMIT dataChanged(index(i), index(i), {Qt::DecorationRole});
}

}  // namespace app::desk::portfolio

#pragma once

#include <QSet>
#include <QString>
#include <QTreeView>

#include <optional>

namespace app::desk::ledger {

/// The tree of the ledger. A changed register resets its model; open nodes, place and chosen line
/// stay as they were. Nodes are open until somebody closes them.
class LedgerView : public QTreeView {
    Q_OBJECT

  public:
    explicit LedgerView(QWidget* parent = nullptr);

    void setModel(QAbstractItemModel* model) override;

    /// While lines are filtered everything that is left lies open.
    void openAll();
    void openAsLeft();

    /// Shows the line as chosen; an invalid index: none.
    void markChosen(const QModelIndex& index);
    /// The same, and brings it into view.
    void showChosen(const QModelIndex& index);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void remember();
    void restore();
    [[nodiscard]] QModelIndex indexOf(const QString& key) const;

    QSet<QString> m_closed;  ///< keys of components
    bool m_byHand = true;    ///< nodes are opened and closed by the user
    std::optional<QString> m_topKey;
    int m_topOffset = 0;
    QString m_currentKey;
};

}  // namespace app::desk::ledger

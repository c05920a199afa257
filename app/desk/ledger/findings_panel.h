#pragma once

#include "app/desk/analyst.h"

#include <QWidget>

#include <cstddef>
#include <memory>
#include <vector>

class QPushButton;
class QToolButton;
class QTreeView;

namespace app::desk::ledger {

class FindingsModel;

/// The fold-out under the ledger: how much there is to settle, and on request all of it.
class FindingsPanel : public QWidget {
    Q_OBJECT

  public:
    explicit FindingsPanel(QWidget* parent = nullptr);

    void show(std::shared_ptr<const Judged> judged);
    /// Puts the mark on the first of these findings unless it is on one of them.
    void mark(const std::vector<std::size_t>& findings);
    [[nodiscard]] bool unfolded() const;

  Q_SIGNALS:
    void folded(bool open);
    void findingChosen(std::size_t finding);
    void acknowledgeWanted(std::size_t finding);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void fold(bool open);
    void markMoved();

    FindingsModel* m_model;
    QToolButton* m_head;
    QTreeView* m_list;
    QPushButton* m_acknowledge;
};

}  // namespace app::desk::ledger

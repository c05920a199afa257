#pragma once

#include "app/desk/analyst.h"
#include "evidence-core/record/decision.h"

#include <QWidget>

#include <memory>

class QLabel;
class QPushButton;
class QTreeWidget;

namespace app::desk::preview {

/// "What a reviewer will ask first": the findings, with what would settle each. A click chooses the
/// record that it is about.
class AskedFirstList : public QWidget {
    Q_OBJECT

  public:
    explicit AskedFirstList(QWidget* parent = nullptr);

    void showFindings(const std::shared_ptr<const Judged>& judged,
                      const evidence::record::ReportFilter& filter);

  Q_SIGNALS:
    void chosen(const evidence::record::AnyId& record);
    /// The finding, as an index into the newest analysis, may stand, and a reason is to be written.
    void acknowledgeAsked(std::size_t finding);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void choose();

    std::shared_ptr<const Judged> m_judged;
    QLabel* m_heading = nullptr;
    QTreeWidget* m_list = nullptr;
    QPushButton* m_acknowledge = nullptr;
};

}  // namespace app::desk::preview

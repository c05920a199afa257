#pragma once

#include "app/desk/analyst.h"
#include "app/desk/open_register.h"
#include "app/desk/selection.h"

#include <QMainWindow>
#include <QPointer>

#include <memory>

class QLabel;
class QSplitter;

namespace app::desk {

class Actions;
namespace ledger {
class LedgerPanel;
}
namespace page {
class PagePanel;
enum class Tool;
}  // namespace page
namespace portfolio {
class PortfolioPanel;
}
namespace preview {
class ReportPreview;
}
namespace thread {
class ThreadPanel;
}

/// The desk with one register on it: page left, ledger right, thread along the foot, portfolio at
/// the left edge. Lays out and connects; every change goes through `OpenRegister`.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(std::unique_ptr<session::Archive> archive, QWidget* parent = nullptr);
    ~MainWindow() override;

    [[nodiscard]] OpenRegister& open() { return m_open; }
    [[nodiscard]] Analyst& analyst() { return m_analyst; }
    [[nodiscard]] Selection& selection() { return m_selection; }
    [[nodiscard]] Actions& actions() { return *m_actions; }

  Q_SIGNALS:
    /// The user asked for another register.
    void anotherWanted();

  protected:
    void closeEvent(QCloseEvent* event) override;
    bool event(QEvent* event) override;

  private:
    void layOut();
    void fillMenus();
    void fillToolStrip();
    void connectActions();
    void connectForms();
    void follow();
    void allowActions();
    void showForm(QWidget* form);
    void showReport();
    void takeFilesIn();
    void say(const QString& sentence);
    void sayRefusal(const evidence::Refusal& refusal);
    void sayState();

    OpenRegister m_open;
    Analyst m_analyst;
    Selection m_selection;
    Actions* m_actions;
    page::PagePanel* m_page;
    ledger::LedgerPanel* m_ledger;
    thread::ThreadPanel* m_thread;
    portfolio::PortfolioPanel* m_portfolio;
    QSplitter* m_across = nullptr;
    QSplitter* m_down = nullptr;
    QLabel* m_state;
    QPointer<preview::ReportPreview> m_preview;
};

}  // namespace app::desk

#pragma once

#include <QWidget>

#include <memory>

namespace app::desk {
class Analyst;
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::thread {

/// Along the foot: all that the chosen value hangs on, from sources to size, with its interval plot
/// beside it, the grade with its reason, and what would raise it. A click on a node chooses its
/// record.
class ThreadPanel : public QWidget {
    Q_OBJECT

  public:
    ThreadPanel(OpenRegister& open, Analyst& analyst, Selection& selection,
                QWidget* parent = nullptr);
    ~ThreadPanel() override;

  protected:
    void changeEvent(QEvent* event) override;

  private:
    class Insides;
    std::unique_ptr<Insides> m_insides;
};

}  // namespace app::desk::thread

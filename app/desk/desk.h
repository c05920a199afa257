#pragma once

#include "app/session/archive.h"

#include <QObject>
#include <QPointer>

#include <filesystem>

class QApplication;

namespace app::desk {

class MainWindow;
class StartWindow;

/// The desk as a program: dresses the application and keeps one window, the start window or the
/// desk with a register on it.
class Desk : public QObject {
    Q_OBJECT

  public:
    Desk(QApplication& application, session::Actor actor);
    ~Desk() override;

    /// Shows the register in `folder`. Errors: as `Archive::open`; the windows stay as they are.
    evidence::Result<void> open(const std::filesystem::path& folder);
    /// Makes a register in `folder` and shows it. Errors: as `Archive::create`.
    evidence::Result<void> start(const std::filesystem::path& folder);
    /// Shows the start window.
    void offer();

    /// Null while no register lies on the desk.
    [[nodiscard]] MainWindow* window() const;

  private:
    void show(std::unique_ptr<session::Archive> archive);

    session::Actor m_actor;
    QPointer<MainWindow> m_window;
    QPointer<StartWindow> m_start;
};

}  // namespace app::desk

#include "app/desk/desk.h"

#include "app/desk/desk_settings.h"
#include "app/desk/look/look.h"
#include "app/desk/main_window.h"
#include "app/desk/start_window.h"

#include <QApplication>
#include <QDir>
#include <QScreen>

namespace app::desk {

namespace {

/// A desk fills most of a small screen and leaves air on a large one.
QSize firstSize(const QScreen& screen) {
    const QSize room = screen.availableSize();
    return {qMin(room.width(), qMax(1280, room.width() * 4 / 5)),
            qMin(room.height(), qMax(800, room.height() * 4 / 5))};
}

}  // namespace

Desk::Desk(QApplication& application, session::Actor actor) : m_actor(std::move(actor)) {
    look::dress(application, desk_settings::theme());
}

Desk::~Desk() {
    delete m_window;
    delete m_start;
}

MainWindow* Desk::window() const {
    return m_window;
}

evidence::Result<void> Desk::open(const std::filesystem::path& folder) {
    auto archive = session::Archive::open(folder, m_actor);
    if (!archive) return tl::unexpected(archive.error());
    show(std::move(*archive));
    return {};
}

evidence::Result<void> Desk::start(const std::filesystem::path& folder) {
    auto archive = session::Archive::create(folder, folder.filename().string(), m_actor);
    if (!archive) return tl::unexpected(archive.error());
    show(std::move(*archive));
    return {};
}

void Desk::show(std::unique_ptr<session::Archive> archive) {
    desk_settings::keepOpened(
        QDir(QString::fromStdString(archive->folder().string())).absolutePath());
    auto* window = new MainWindow(std::move(archive));
    window->setAttribute(Qt::WA_DeleteOnClose);
    if (!window->restoreGeometry(desk_settings::geometry()))
        window->resize(firstSize(*window->screen()));
    connect(window, &MainWindow::anotherWanted, this, &Desk::offer);
    window->show();
    if (m_window) m_window->close();
    m_window = window;
    if (m_start) m_start->close();
}

void Desk::offer() {
    if (!m_start) {
        m_start = new StartWindow;
        m_start->setAttribute(Qt::WA_DeleteOnClose);
        const auto orSay = [this](const evidence::Result<void>& done) {
            if (!done && m_start) m_start->sayWhyNot(QString::fromStdString(done.error().help));
        };
        connect(m_start, &StartWindow::openWanted, this,
                [this, orSay](const QString& folder) { orSay(open(folder.toStdString())); });
        connect(m_start, &StartWindow::newWanted, this,
                [this, orSay](const QString& folder) { orSay(start(folder.toStdString())); });
    }
    m_start->show();
    m_start->raise();
}

}  // namespace app::desk

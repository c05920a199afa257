#include "app/desk/desk.h"

#include "app/command/archive_argument.h"

#include <CLI/CLI.hpp>
#include <QApplication>

#include <cstdio>
#include <cstdlib>
#include <memory>
#include <optional>

namespace app::command {

namespace {

struct Arguments {
    std::filesystem::path archive;
};

/// Whether a window can be shown at all: Qt would end the program where it cannot.
bool hasDisplay() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"})
        if (const char* value = std::getenv(name); value && *value) return true;
    return false;
}

/// No display behind DISPLAY: Qt says so as a fatal message, which becomes our one sentence.
void exitWithoutDisplay(QtMsgType type, const QMessageLogContext&, const QString& message) {
    if (type != QtFatalMsg) {
        if (type != QtDebugMsg && type != QtInfoMsg)
            std::fprintf(stderr, "lostlines: %s\n", qPrintable(message));
        return;
    }
    std::fprintf(stderr, "lostlines: The desk could not open a window: %s\n", qPrintable(message));
    std::_Exit(static_cast<int>(Exit::SystemFailed));
}

Exit openDesk(const Arguments& given, Terminal& terminal) {
    if (!hasDisplay())
        return printRefusal(terminal, false,
                            {evidence::Code::WrongUse, "",
                             "The desk needs a display and none is set (DISPLAY, WAYLAND_DISPLAY); "
                             "every other verb works without one."});
    // What cannot be opened is said in the terminal, before any window.
    if (!given.archive.empty())
        if (const auto archive = openArchive(given.archive, terminal); !archive)
            return printRefusal(terminal, false, archive.error());

    qInstallMessageHandler(exitWithoutDisplay);
    static char name[] = "lostlines";
    static char* arguments[] = {name, nullptr};
    int count = 1;
    QApplication application(count, arguments);
    desk::Desk desk(application, {terminal.by, timeNow});
    if (given.archive.empty())
        desk.offer();
    else if (const auto opened = desk.open(given.archive); !opened)
        return printRefusal(terminal, false, opened.error());
    return QApplication::exec() == 0 ? Exit::Done : Exit::SystemFailed;
}

}  // namespace

void addDesk(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("desk", "open the window");
    verb->add_option("ARCHIVE", given->archive, "the archive's folder; without it, choose one");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return openDesk(*given, terminal); };
    });
}

}  // namespace app::command

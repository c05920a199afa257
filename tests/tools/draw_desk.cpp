// draw_desk ARCHIVE OUT.png [--source S5] [--dimension D12] [--size 1280x800] [--lamp]
// [--portfolio] draws the desk as it stands with a register on it: for looking at it, and for the
// pictures in docs/. Run with QT_QPA_PLATFORM=offscreen where there is no display.
#include "app/desk/actions.h"
#include "app/desk/desk.h"
#include "app/desk/look/look.h"
#include "app/desk/main_window.h"
#include "evidence-core/judgement/explain.h"
#include "evidence-core/record/lookup.h"

#include <CLI/CLI.hpp>
#include <QApplication>
#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QThreadPool>

#include <algorithm>
#include <cstdio>
#include <string>

namespace {

struct Arguments {
    std::string archive;
    std::string out;
    std::string source;
    std::string dimension;
    std::string size = "1280x800";
    bool lamp = false;
    bool portfolio = false;
};

/// Lets the desk work until it is still: analysis, decoding and tiles come from other threads.
void settle(int milliseconds) {
    QElapsedTimer timer;
    timer.start();
    while (timer.elapsed() < milliseconds) QApplication::processEvents(QEventLoop::AllEvents, 20);
}

int draw(const Arguments& given, QApplication& application) {
    app::desk::Desk desk(application, {"Draughtsman", [] { return "2026-01-01T00:00:00Z"; }});
    if (const auto opened = desk.open(given.archive); !opened) {
        std::fprintf(stderr, "draw_desk: %s\n", opened.error().help.c_str());
        return 3;
    }
    auto& window = *desk.window();
    const auto size = QString::fromStdString(given.size).split('x');
    window.resize(size.value(0).toInt(), size.value(1).toInt());
    while (!window.analyst().judged()) settle(50);

    window.actions().lamp->setChecked(given.lamp);
    window.actions().portfolio->setChecked(given.portfolio);
    const auto& reg = window.open().snapshot()->reg;
    const auto source = std::ranges::find_if(
        reg.sources, [&](const auto& held) { return held.code == given.source; });
    if (source != reg.sources.end()) window.selection().choose(evidence::record::any(source->id));
    if (!given.dimension.empty())
        window.selection().choose(evidence::judgement::namedBy(given.dimension, reg));
    settle(500);
    while (QThreadPool::globalInstance()->activeThreadCount() > 0) settle(200);
    settle(300);
    return window.grab().save(QString::fromStdString(given.out)) ? 0 : 5;
}

}  // namespace

int main(int argc, char** argv) {
    Arguments given;
    CLI::App cli{"Draws the desk with a register on it."};
    cli.add_option("ARCHIVE", given.archive, "the archive's folder")->required();
    cli.add_option("OUT", given.out, "the picture to write")->required();
    cli.add_option("--source", given.source, "the code of a source to choose");
    cli.add_option("--dimension", given.dimension, "the code of a dimension to choose");
    cli.add_option("--size", given.size, "of the window, as 1280x800");
    cli.add_flag("--lamp", given.lamp, "dark surroundings");
    cli.add_flag("--portfolio", given.portfolio, "with the portfolio open");
    CLI11_PARSE(cli, argc, argv);

    const QTemporaryDir home;  // the user's own settings are neither read nor changed
    qputenv("XDG_CONFIG_HOME", home.path().toUtf8());
    QApplication application(argc, argv);
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPointSizeF(9);
    QApplication::setFont(font);
    return draw(given, application);
}

#include "app/desk/desk.h"

#include "app/command/verb.h"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>

namespace app::command {

void addDesk(CLI::App& cli, Action& action) {
    const auto archive = std::make_shared<std::filesystem::path>();
    auto* verb = cli.add_subcommand("desk", "open the window");
    verb->add_option("ARCHIVE", *archive, "the archive's folder");
    verb->callback([archive, &action] {
        action = [archive](Terminal& terminal) {
            return desk::runDesk(*archive, QString::fromStdString(terminal.by)) == 0
                       ? Exit::Done
                       : Exit::SystemFailed;
        };
    });
}

}  // namespace app::command

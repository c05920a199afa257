#include "app/command/archive_argument.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

struct Arguments {
    std::filesystem::path archive;
    std::string title;
};

}  // namespace

void addNew(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("new", "make an empty archive");
    addArchive(*verb, given->archive);
    verb->add_option("--title", given->title, "what the register is of");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) {
            const std::string title =
                given->title.empty() ? given->archive.filename().string() : given->title;
            auto made = session::Archive::create(given->archive, title, {terminal.by, timeNow});
            if (!made) return printRefusal(terminal, false, made.error());
            terminal.err << fmt::format("Made an empty archive in {}.\n", given->archive.string());
            return Exit::Done;
        };
    });
}

}  // namespace app::command

#include "app/session/take_in.h"

#include "app/command/archive_argument.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

using evidence::record::SourceKind;

struct Arguments {
    std::filesystem::path archive;
    std::vector<std::filesystem::path> files;
    std::string kind;
};

Exit takeFilesIn(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, false, archive.error());
    std::optional<SourceKind> kind;
    if (!given.kind.empty()) kind = evidence::record::byName<SourceKind>(given.kind);
    const auto taken = session::takeIn(**archive, given.files, kind);
    if (!taken) return printRefusal(terminal, false, taken.error());
    for (const auto& file : *taken) {
        terminal.out << fmt::format("{} {}{}\n", file.code, file.given.string(),
                                    file.alreadyHere ? " (these bytes are here already)" : "");
        if (file.refused)
            terminal.err << fmt::format("lostlines: {}: registered, but not shown: {}\n",
                                        file.given.string(), *file.refused);
    }
    return Exit::Done;
}

}  // namespace

void addTakeIn(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("take-in", "copy files in as sources");
    addArchive(*verb, given->archive);
    verb->add_option("FILE", given->files, "files to copy; they are never altered")->required();
    verb->add_option("--as", given->kind, "what kind of source they are")
        ->check(CLI::IsMember(
            {"drawing", "photograph", "text", "part", "testimony", "rebuild", "standard"}));
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return takeFilesIn(*given, terminal); };
    });
}

}  // namespace app::command

#include "imaging/raster/inspect.h"

#include "app/command/verb.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

struct Arguments {
    std::vector<std::filesystem::path> files;
    std::vector<int> at;
    bool json = false;
};

Exit inspectFiles(const Arguments& given, Terminal& terminal) {
    std::optional<imaging::raster::InspectedPixel> at;
    if (!given.at.empty()) at = {given.at[0], given.at[1]};
    const auto answer = given.json ? imaging::raster::inspectJson(given.files, at)
                                   : imaging::raster::inspectText(given.files, at);
    if (!answer) return printRefusal(terminal, given.json, answer.error());
    terminal.out << *answer;
    return Exit::Done;
}

}  // namespace

void addInspect(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("inspect", "what a file is, without an archive");
    verb->add_option("FILE", given->files, "pictures")->required();
    verb->add_option("--at", given->at, "X,Y: the stored and the shown value of a pixel of page 1")
        ->delimiter(',')
        ->expected(2);
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return inspectFiles(*given, terminal); };
    });
}

}  // namespace app::command

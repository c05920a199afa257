#include "app/command/verb.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <string>
#include <vector>

/// Verbs that the contract names and this version does not have yet: they say so and change
/// nothing.
namespace app::command {

namespace {

void addLater(CLI::App& cli, Action& action, const std::string& name, const std::string& does) {
    auto* verb = cli.add_subcommand(name, does + " (not in this version)");
    verb->allow_extras()->fallthrough(false);
    verb->callback([name, &action] {
        action = [name](Terminal& terminal) {
            return printRefusal(
                terminal, false,
                {evidence::Code::WrongUse, "",
                 fmt::format("'{}' is not in this version; nothing was changed. Use "
                             "'export' and 'import' to hand a register on.",
                             name)});
        };
    });
}

}  // namespace

void addPack(CLI::App& cli, Action& action) {
    addLater(cli, action, "pack", "write the archive as a BagIt bag");
}

void addUnpack(CLI::App& cli, Action& action) {
    addLater(cli, action, "unpack", "make an archive from a BagIt bag");
}

void addMerge(CLI::App& cli, Action& action) {
    addLater(cli, action, "merge", "bring another person's work on the same archive in");
}

}  // namespace app::command

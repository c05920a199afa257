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

void addTakeIn(CLI::App& cli, Action& action) {
    addLater(cli, action, "take-in", "copy files in as sources");
}

void addImport(CLI::App& cli, Action& action) {
    addLater(cli, action, "import", "read an exchange document");
}

void addExport(CLI::App& cli, Action& action) {
    addLater(cli, action, "export", "write the register in an open format");
}

void addAnalyse(CLI::App& cli, Action& action) {
    addLater(cli, action, "analyse", "the network, the grades, the findings");
}

void addExplain(CLI::App& cli, Action& action) {
    addLater(cli, action, "explain", "why a dimension is this size");
}

void addMeasure(CLI::App& cli, Action& action) {
    addLater(cli, action, "measure", "measure on a picture");
}

void addSearch(CLI::App& cli, Action& action) {
    addLater(cli, action, "search", "full text with places");
}

void addReport(CLI::App& cli, Action& action) {
    addLater(cli, action, "report", "write a report");
}

void addVerify(CLI::App& cli, Action& action) {
    addLater(cli, action, "verify", "fixity, journal and database");
}

void addDesk(CLI::App& cli, Action& action) {
    addLater(cli, action, "desk", "open the window");
}

void addNew(CLI::App& cli, Action& action) {
    addLater(cli, action, "new", "make an empty archive");
}

void addCompare(CLI::App& cli, Action& action) {
    addLater(cli, action, "compare", "what changed between two moments");
}

}  // namespace app::command

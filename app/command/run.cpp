#include "app/command/user_settings.h"
#include "app/command/verb.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <exception>
#include <new>
#include <ostream>
#include <string_view>

namespace app::command {

namespace {

constexpr auto kVerbs =
    std::array{addNew,     addTakeIn,  addImport, addExport, addAnalyse, addExplain,
               addInspect, addMeasure, addSearch, addTable,  addReport,  addCompare,
               addVerify,  addPack,    addUnpack, addMerge,  addDesk};

std::string loginName() {
    const passwd* entry = ::getpwuid(::geteuid());
    return entry && entry->pw_name ? entry->pw_name : "unknown";
}

bool asksForJson(int argc, const char* const* argv) {
    return std::any_of(argv, argv + argc, [](std::string_view a) { return a == "--json"; });
}

Exit systemFailed(Terminal& terminal, bool json, std::string_view what) {
    if (json)
        terminal.out << nlohmann::ordered_json{{"errors",
                                                {{{"code", "system-failed"},
                                                  {"place", ""},
                                                  {"help", what}}}}}
                            .dump(2, 32, false, nlohmann::json::error_handler_t::replace)
                     << "\n";
    terminal.err << fmt::format("lostlines: the system failed: {}\n", what);
    return Exit::SystemFailed;
}

}  // namespace

int run(int argc, const char* const* argv, std::ostream& out, std::ostream& err) {
    CLI::App cli{
        "Lostlines: the evidence and provenance register for people who rebuild a design whose "
        "drawings are lost.",
        "lostlines"};
    cli.set_version_flag("--version", std::string("lostlines ") + LOSTLINES_VERSION);
    cli.require_subcommand(1);
    cli.fallthrough();
    Terminal terminal{out, err, {}};
    cli.add_option("--by", terminal.by, "who acts (else the user's setting, else the login name)");
    cli.add_flag("--verbose", terminal.verbose, "say more on standard error");

    Action action;
    for (const auto add : kVerbs) add(cli, action);

    const bool json = asksForJson(argc, argv);
    try {
        cli.parse(argc, argv);
        if (terminal.by.empty()) terminal.by = userSetting("by").value_or(loginName());
        return static_cast<int>(action(terminal));
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return cli.exit(error, out, err);
        const auto chosen = cli.get_subcommands();
        const std::string verb = chosen.empty() ? "" : chosen.front()->get_name() + " ";
        return static_cast<int>(
            printRefusal(terminal, json,
                         {evidence::Code::WrongUse, "",
                          fmt::format("{}; see 'lostlines {}--help'.", error.what(), verb)}));
    } catch (const std::bad_alloc&) {
        return static_cast<int>(systemFailed(terminal, json, "out of memory"));
    } catch (const std::exception& error) {
        return static_cast<int>(systemFailed(terminal, json, error.what()));
    }
}

}  // namespace app::command

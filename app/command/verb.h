#pragma once

#include "evidence-core/refusal.h"
#include "imaging/refusal.h"

#include <functional>
#include <iosfwd>
#include <memory>
#include <string>

namespace CLI {
class App;
}

/// The command line: one file per verb. A verb only gathers arguments, calls `session`,
/// `judgement`, `imaging` or `report`, and prints. docs/exchange.md is the contract.
namespace app::command {

/// Exit statuses of the contract.
enum class Exit {
    Done = 0,
    Findings = 1,
    WrongUse = 2,
    BadInput = 3,
    Damaged = 4,
    SystemFailed = 5
};

/// What every verb is given. `out` carries the answer and nothing else, `err` messages.
struct Terminal {
    std::ostream& out;
    std::ostream& err;
    std::string by;  ///< who acts: `--by`, else the user's setting, else the login name
    bool verbose = false;
};

/// What to do once the arguments are read.
using Action = std::function<Exit(Terminal&)>;

/// The status a refusal ends with.
[[nodiscard]] Exit exitFor(const evidence::Refusal& refusal);

/// Prints a refusal as one line, or with `json` as `{"errors": […]}`, and returns its status.
Exit printRefusal(Terminal& terminal, bool json, const evidence::Refusal& refusal);
Exit printRefusal(Terminal& terminal, bool json, const imaging::Refusal& refusal);

/// The written name of a code, as the JSON errors print it.
[[nodiscard]] std::string codeName(evidence::Code code);

/// Now as RFC 3339 in UTC; SOURCE_DATE_EPOCH fixes it.
[[nodiscard]] std::string timeNow();

/// Each adds its verb to `cli` and, when the verb is chosen, sets `action`.
void addNew(CLI::App& cli, Action& action);
void addTakeIn(CLI::App& cli, Action& action);
void addImport(CLI::App& cli, Action& action);
void addExport(CLI::App& cli, Action& action);
void addAnalyse(CLI::App& cli, Action& action);
void addExplain(CLI::App& cli, Action& action);
void addInspect(CLI::App& cli, Action& action);
void addMeasure(CLI::App& cli, Action& action);
void addSearch(CLI::App& cli, Action& action);
void addTable(CLI::App& cli, Action& action);
void addReport(CLI::App& cli, Action& action);
void addCompare(CLI::App& cli, Action& action);
void addVerify(CLI::App& cli, Action& action);
void addPack(CLI::App& cli, Action& action);
void addUnpack(CLI::App& cli, Action& action);
void addMerge(CLI::App& cli, Action& action);
void addDesk(CLI::App& cli, Action& action);

/// Reads `argv` and runs the verb. Never throws.
int run(int argc, const char* const* argv, std::ostream& out, std::ostream& err);

}  // namespace app::command

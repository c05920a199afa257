#include "evidence-core/judgement/analyse.h"

#include "app/command/analysis_text.h"
#include "app/command/archive_argument.h"
#include "evidence-core/exchange/analysis_json.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

using evidence::judgement::Severity;

struct Arguments {
    std::filesystem::path archive;
    bool json = false;
    bool brief = false;
    std::vector<std::string> covariance;
    std::string asOn;
    std::string stopAt;
};

Exit analyseArchive(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    const auto snapshot =
        given.asOn.empty()
            ? evidence::Result<std::shared_ptr<const session::Snapshot>>((*archive)->snapshot())
            : (*archive)->snapshotAt(given.asOn);
    if (!snapshot) return printRefusal(terminal, given.json, snapshot.error());
    const auto analysis = evidence::judgement::analyse(
        (*snapshot)->reg, {given.covariance, (*snapshot)->surroundings});
    if (!analysis) return printRefusal(terminal, given.json, analysis.error());

    if (given.json)
        terminal.out << evidence::exchange::analysisJson(*analysis);
    else if (given.brief)
        terminal.out << briefText((*snapshot)->reg, *analysis);
    else
        terminal.out << fullText((*snapshot)->reg, *analysis);

    if (const auto level = severityByName(given.stopAt))
        for (const auto& finding : analysis->findings)
            if (!finding.acknowledged && finding.severity <= *level) return Exit::Findings;
    return Exit::Done;
}

}  // namespace

void addAnalyse(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("analyse", "the network, the grades, the findings");
    addArchive(*verb, given->archive);
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->add_flag("--brief", given->brief, "print a summary of a few lines");
    verb->add_option("--covariance", given->covariance,
                     "dimensions whose covariances are wanted, by code or id, with commas")
        ->delimiter(',');
    verb->add_option("--as-on", given->asOn, "the register as it was at this time (RFC 3339)");
    verb->add_option("--stop-at", given->stopAt,
                     "end with status 1 where a finding is at or above this level")
        ->check(CLI::IsMember({"high", "medium", "low", "note"}));
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return analyseArchive(*given, terminal); };
    });
}

}  // namespace app::command

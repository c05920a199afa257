#include "evidence-core/judgement/explain.h"

#include "app/command/archive_argument.h"
#include "app/command/headless.h"
#include "app/command/output_file.h"
#include "app/report/figure/thread_svg.h"
#include "evidence-core/exchange/explain_json.h"
#include "evidence-core/judgement/analyse.h"
#include "evidence-core/judgement/thread.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

namespace judgement = evidence::judgement;

struct Arguments {
    std::filesystem::path archive;
    std::string on;
    bool json = false;
    std::filesystem::path out;
};

Exit explainOne(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    const auto snapshot = (*archive)->snapshot();
    const auto on = judgement::namedBy(given.on, snapshot->reg);
    if (on.empty())
        return printRefusal(
            terminal, given.json,
            evidence::Refusal{evidence::Code::MissingTarget, given.on,
                              "no dimension or particular has this code or id; 'analyse' lists "
                              "them."});
    const auto analysis = judgement::analyse(snapshot->reg, {{}, snapshot->surroundings});
    if (!analysis) return printRefusal(terminal, given.json, analysis.error());
    if (!given.out.empty()) {
        const Headless headless;
        writeWhole(given.out, report::figure::threadSvg(
                                  judgement::threadOf(on, snapshot->reg, *analysis), given.on));
    }
    if (given.json)
        terminal.out << evidence::exchange::explainJson(on, snapshot->reg, *analysis);
    else if (given.out.empty())
        terminal.out << judgement::explainText(on, snapshot->reg, *analysis);
    return Exit::Done;
}

}  // namespace

void addExplain(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("explain", "why a dimension is this size, down to its sources");
    addArchive(*verb, given->archive);
    verb->add_option("ON", given->on, "a dimension or particular, by code or id")->required();
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->add_option("-o", given->out, "draw the thread into this SVG file");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return explainOne(*given, terminal); };
    });
}

}  // namespace app::command

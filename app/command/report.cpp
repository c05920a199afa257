#include "app/report/report.h"

#include "app/command/archive_argument.h"
#include "app/command/headless.h"
#include "app/command/output_file.h"
#include "evidence-core/judgement/analyse.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

struct Arguments {
    std::filesystem::path archive;
    std::filesystem::path out;
    std::string kind = "provenance";
    std::string grade;
    evidence::record::ReportFilter filter;
    bool replace = false;
};

Exit reportArchive(const Arguments& given, Terminal& terminal) {
    if (const auto may = mayWrite(given.out, given.replace ? Existing::Replace : Existing::Keep);
        !may)
        return printRefusal(terminal, false, may.error());
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, false, archive.error());
    const auto snapshot = (*archive)->snapshot();
    const auto analysis = evidence::judgement::analyse(snapshot->reg, {{}, snapshot->surroundings});
    if (!analysis) return printRefusal(terminal, false, analysis.error());

    report::ReportRequest request;
    request.kind = *report::kindNamed(given.kind);
    request.filter = given.filter;
    if (!given.grade.empty())
        request.filter.grade = evidence::record::byName<evidence::record::Grade>(given.grade);
    request.at = timeNow();
    request.registerDigest = (*archive)->headDigest();

    const Headless headless;
    const auto originals = [&](const evidence::record::File& file) {
        return (*archive)->originalOf(file);
    };
    const auto written = report::writeReport(*snapshot, originals, *analysis, request, given.out);
    if (!written) return printRefusal(terminal, false, written.error());
    terminal.err << fmt::format("Wrote {}.\n", given.out.string());
    return Exit::Done;
}

}  // namespace

void addReport(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("report", "write a report for reviewers or the shop");
    addArchive(*verb, given->archive);
    verb->add_option("-o", given->out, "the file to write: .pdf or .html")->required();
    verb->add_option("--kind", given->kind, "which report")
        ->check(CLI::IsMember({"provenance", "short", "shop", "slip", "departures", "guesses"}));
    verb->add_option("--on", given->filter.on, "one dimension or particular, by code or id");
    verb->add_option("--component", given->filter.component, "one component and what is below it");
    verb->add_option("--grade", given->grade, "one grade")
        ->check(CLI::IsMember({"H", "F", "T", "B", "C", "O", "-"}));
    verb->add_option("--state", given->filter.state, "one state of the original, by id or label");
    verb->add_option("--since", given->filter.since, "what was touched since an issued report");
    verb->add_flag("--replace", given->replace, "write over an existing file");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return reportArchive(*given, terminal); };
    });
}

}  // namespace app::command

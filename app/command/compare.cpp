#include "evidence-core/judgement/compare.h"

#include "app/command/archive_argument.h"
#include "evidence-core/judgement/analyse.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

using evidence::judgement::Analysis;
using evidence::judgement::Comparison;
using nlohmann::ordered_json;

struct Arguments {
    std::filesystem::path archive;
    std::string from;
    std::string to;
    bool json = false;
};

struct Known {
    std::shared_ptr<const session::Snapshot> snapshot;
    Analysis analysis;
};

evidence::Result<Known> knownAt(const session::Archive& archive, const std::string& time) {
    return archive.snapshotAt(time).and_then(
        [](std::shared_ptr<const session::Snapshot> snapshot) -> evidence::Result<Known> {
            auto analysis = evidence::judgement::analyse(snapshot->reg);
            if (!analysis) return tl::unexpected(analysis.error());
            return Known{std::move(snapshot), std::move(*analysis)};
        });
}

ordered_json orNull(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json asJson(const Arguments& given, const Comparison& changes) {
    ordered_json document{{"format", "lostlines-comparison"},
                          {"version", 1},
                          {"from", given.from},
                          {"to", given.to},
                          {"moved", ordered_json::array()},
                          {"grades", ordered_json::array()},
                          {"slips", ordered_json::array()},
                          {"as_built", ordered_json::array()},
                          {"added", ordered_json::array()}};
    for (const auto& move : changes.moved)
        document["moved"].push_back({{"dimension", move.dimension.text},
                                     {"code", move.code},
                                     {"from", orNull(move.from)},
                                     {"to", orNull(move.to)},
                                     {"spread", orNull(move.spread)}});
    for (const auto& change : changes.grades)
        document["grades"].push_back({{"on", change.on.text},
                                      {"code", change.code},
                                      {"from", nameOf(change.from)},
                                      {"to", nameOf(change.to)}});
    for (const auto& slip : changes.slips) document["slips"].push_back(slip.text);
    for (const auto& made : changes.asBuilt) document["as_built"].push_back(made.text);
    for (const auto& id : changes.added) document["added"].push_back(id.text);
    return document;
}

std::string known(const std::optional<double>& value) {
    return value ? fmt::format("{:.6g}", *value) : "not known";
}

std::string asText(const Comparison& changes) {
    std::string text = fmt::format(
        "{} moved beyond their spread, {} grades changed, {} new; {} slips and {} built parts are "
        "touched\n",
        changes.moved.size(), changes.grades.size(), changes.added.size(), changes.slips.size(),
        changes.asBuilt.size());
    for (const auto& move : changes.moved)
        text += fmt::format("  {}  {} → {}\n", move.code, known(move.from), known(move.to));
    for (const auto& change : changes.grades)
        text += fmt::format("  {}  grade {} → {}\n", change.code, nameOf(change.from),
                            nameOf(change.to));
    return text;
}

Exit compareMoments(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    const auto before = knownAt(**archive, given.from);
    if (!before) return printRefusal(terminal, given.json, before.error());
    const auto after = knownAt(**archive, given.to.empty() ? timeNow() : given.to);
    if (!after) return printRefusal(terminal, given.json, after.error());
    const auto changes = evidence::judgement::compare({before->snapshot->reg, before->analysis},
                                                      {after->snapshot->reg, after->analysis});
    terminal.out << (given.json ? asJson(given, changes).dump(2) + "\n" : asText(changes));
    return Exit::Done;
}

}  // namespace

void addCompare(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("compare", "what changed between two moments");
    addArchive(*verb, given->archive);
    verb->add_option("--from", given->from, "the earlier moment (RFC 3339)")->required();
    verb->add_option("--to", given->to, "the later moment; now where absent");
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return compareMoments(*given, terminal); };
    });
}

}  // namespace app::command

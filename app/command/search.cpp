#include "app/command/archive_argument.h"
#include "evidence-core/store/register_store.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <memory>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

using nlohmann::ordered_json;

struct Arguments {
    std::filesystem::path archive;
    std::vector<std::string> words;
    bool json = false;
};

Exit searchArchive(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    const auto hits = (*archive)->store().search(fmt::format("{}", fmt::join(given.words, " ")));
    if (given.json) {
        ordered_json document{{"hits", ordered_json::array()}};
        for (const auto& hit : hits)
            document["hits"].push_back(
                {{"kind", hit.kind}, {"id", hit.id.text}, {"excerpt", hit.excerpt}});
        terminal.out << document.dump(2) << '\n';
        return Exit::Done;
    }
    for (const auto& hit : hits)
        terminal.out << fmt::format("{} {}: {}\n", hit.kind, hit.id.text, hit.excerpt);
    if (hits.empty()) terminal.err << "Nothing holds all of these words.\n";
    return Exit::Done;
}

}  // namespace

void addSearch(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("search", "full text with places");
    addArchive(*verb, given->archive);
    verb->add_option("WORDS", given->words, "words that must all occur")->required();
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return searchArchive(*given, terminal); };
    });
}

}  // namespace app::command

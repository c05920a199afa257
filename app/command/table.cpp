#include "app/command/archive_argument.h"
#include "app/session/table_offer.h"
#include "evidence-core/trade/trade.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <memory>
#include <optional>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

namespace record = evidence::record;
namespace trade = evidence::trade;

using nlohmann::ordered_json;

struct Arguments {
    std::vector<std::string> words;
    std::string era;
    std::string region;
    std::string kind;
    std::filesystem::path with;
    bool json = false;
};

/// What was found: the meanings of trade words, and rows by their words (or the one row of an id).
struct Found {
    trade::TradeWords sizes;
    std::vector<trade::FoundRow> rows;
};

evidence::Result<trade::Question> questionOf(const Arguments& given) {
    trade::Question question;
    question.words = fmt::format("{}", fmt::join(given.words, " "));
    question.region = given.region;
    if (!given.kind.empty()) question.kind = record::byName<record::TableRowKind>(given.kind);
    if (given.era.empty()) return question;
    const auto era = evidence::quantity::parseWrittenDate(given.era);
    if (!era) return evidence::refuse(era.error().code, "--era", era.error().help);
    question.era = *era;
    return question;
}

evidence::Result<Found> lookUp(const trade::Tables& tables, const trade::Question& question) {
    Found found;
    auto rows = trade::search(tables, question);
    if (!rows)
        return evidence::refuse(rows.error().code, "--" + rows.error().place, rows.error().help);
    found.rows = *std::move(rows);
    if (const auto* row = tables.find(question.words))
        found.rows = {{row, trade::erasMeet(row->era, question.era),
                       trade::overlap(row->places, trade::placesIn(question.region))}};
    else if (question.kind.value_or(record::TableRowKind::Length) == record::TableRowKind::Length)
        found.sizes = trade::tradeWords(tables, question.words, question);
    return found;
}

ordered_json asJson(const trade::FoundRow& found) {
    const auto& row = *found.row;
    const auto orNull = [](const std::optional<double>& number) {
        return number ? ordered_json(*number) : ordered_json(nullptr);
    };
    return {{"id", row.id},
            {"table", row.table},
            {"kind", record::nameOf(row.kind)},
            {"name", row.name},
            {"measures", row.measures},
            {"value", row.value},
            {"unit", trade::nameOf(row.unit)},
            {"u", row.u},
            {"low", orNull(row.low)},
            {"high", orNull(row.high)},
            {"era", row.eraText},
            {"region", row.region},
            {"system", row.system},
            {"size", row.size},
            {"source", row.source},
            {"from_memory", row.fromMemory},
            {"note", row.note},
            {"fits_era", found.fitsEra},
            {"fits_region", found.fitsRegion}};
}

ordered_json asJson(const trade::Question& question, const Found& found) {
    ordered_json document{{"format", "lostlines-table"},      {"version", 1},
                          {"words", question.words},          {"settled", found.sizes.settled()},
                          {"question", found.sizes.question}, {"meanings", ordered_json::array()},
                          {"rows", ordered_json::array()}};
    for (const auto& meaning : found.sizes.meanings) {
        ordered_json rows = ordered_json::array();
        for (const auto* row : meaning.rows) rows.push_back(row->id);
        document["meanings"].push_back({{"system", meaning.system->id},
                                        {"name", meaning.system->name},
                                        {"rows", rows},
                                        {"fits_era", meaning.fitsEra},
                                        {"fits_region", meaning.fitsRegion}});
    }
    for (const auto& row : found.rows) document["rows"].push_back(asJson(row));
    return document;
}

std::string asText(const trade::FoundRow& found) {
    const auto offer = session::offerOf(found);
    const auto& row = *found.row;
    std::string text = fmt::format("{}  {}\n    {}", offer.row, offer.words, offer.value);
    if (row.low && row.high) text += fmt::format(", {} to {}", *row.low, *row.high);
    if (!row.eraText.empty()) text += "; " + row.eraText;
    if (!row.region.empty()) text += "; " + row.region;
    text += "\n    " + offer.source + "\n";
    if (!row.note.empty()) text += "    " + row.note + "\n";
    if (!offer.unfit.empty()) text += "    " + offer.unfit + "\n";
    return text;
}

std::string asText(const Found& found) {
    std::string text;
    if (!found.sizes.question.empty()) text += found.sizes.question + "\n";
    for (const auto& meaning : found.sizes.meanings) {
        text += meaning.system->name + "\n";
        for (const auto* row : meaning.rows)
            text += asText({row, meaning.fitsEra, meaning.fitsRegion});
    }
    // What stands under its meaning need not stand again.
    if (!found.sizes.meanings.empty()) return text;
    for (const auto& row : found.rows) text += asText(row);
    return text;
}

Exit showRows(const Arguments& given, Terminal& terminal) {
    const auto question = questionOf(given);
    if (!question) return printRefusal(terminal, given.json, question.error());
    std::optional<trade::Tables> own;
    if (!given.with.empty()) {
        const auto archive = openArchive(given.with, terminal);
        if (!archive) return printRefusal(terminal, given.json, archive.error());
        own.emplace((*archive)->snapshot()->reg);
    }
    const auto found = lookUp(own ? *own : trade::Tables::builtIn(), *question);
    if (!found) return printRefusal(terminal, given.json, found.error());
    if (given.json)
        terminal.out << asJson(*question, *found).dump(2) << '\n';
    else
        terminal.out << asText(*found);
    if (found->rows.empty() && found->sizes.meanings.empty())
        terminal.err << "No row of the tables has all of these words.\n";
    return Exit::Done;
}

std::vector<std::string> kindNames() {
    std::vector<std::string> names;
    names.reserve(record::Names<record::TableRowKind>::all.size());
    for (const auto& entry : record::Names<record::TableRowKind>::all)
        names.emplace_back(entry.first);
    return names;
}

}  // namespace

void addTable(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand(
        "table", "rows of the trade tables: known things, materials, and what trade words mean");
    verb->add_option("WORDS", given->words, "words that must all occur, or the id of a row")
        ->required();
    verb->add_option("--era", given->era, "rows of this time first (EDTF, such as 1909)");
    verb->add_option("--region", given->region, "rows of this place first (GB, US, England …)");
    verb->add_option("--kind", given->kind, "only rows of this kind")
        ->check(CLI::IsMember(kindNames()));
    verb->add_option("--with", given->with, "an archive whose own rows count too");
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return showRows(*given, terminal); };
    });
}

}  // namespace app::command

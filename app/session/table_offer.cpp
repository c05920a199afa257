#include "app/session/table_offer.h"

#include "app/session/given_text.h"
#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

#include <algorithm>

namespace app::session {

namespace record = evidence::record;
namespace trade = evidence::trade;

namespace {

std::string valueWords(const trade::Row& row) {
    const auto unit = trade::nameOf(row.unit);
    return fmt::format("{}{}{}, u {}", row.valueText, unit == "1" ? "" : " ",
                       unit == "1" ? "" : unit, row.u);
}

std::string sourceWords(const trade::Row& row) {
    return row.fromMemory && row.source.find("from memory") == std::string::npos
               ? row.source + "; from memory"
               : row.source;
}

std::string unfitWords(const trade::FoundRow& found) {
    std::string words;
    if (!found.fitsEra) words = "of another time (" + found.row->eraText + ")";
    if (!found.fitsRegion)
        words += (words.empty() ? "" : ", ") + ("of another place (" + found.row->region + ")");
    return words;
}

std::optional<evidence::quantity::EdtfDate> dateOf(const record::Register& reg,
                                                   const std::optional<record::SourceId>& id) {
    const auto* source = id ? record::find(reg, *id) : nullptr;
    if (!source || !source->date) return std::nullopt;
    const auto date = evidence::quantity::parseEdtf(*source->date);
    return date ? std::optional(*date) : std::nullopt;
}

}  // namespace

TableOffer offerOf(const trade::FoundRow& found) {
    const auto& row = *found.row;
    return {row.id, row.measures.empty() ? row.name : row.name + ": " + row.measures,
            valueWords(row), sourceWords(row), unfitWords(found)};
}

std::string candidateWords(const TableOffer& offer) {
    return fmt::format("{}; {}{}{}", offer.value, offer.words, offer.unfit.empty() ? "" : "; ",
                       offer.unfit);
}

std::string pickedWords(const trade::Row& row) {
    return fmt::format("{} ({})", row.name, row.id);
}

const trade::Row* rowPicked(const trade::Tables& tables, std::string_view text) {
    const std::string words = trimmed(text);
    if (const auto* row = tables.find(words)) return row;
    const auto open = words.rfind('(');
    if (open == std::string::npos || words.back() != ')') return nullptr;
    const auto* row =
        tables.find(std::string_view(words).substr(open + 1, words.size() - open - 2));
    return row && pickedWords(*row) == words ? row : nullptr;
}

std::vector<TableOffer> offers(const trade::Tables& tables, const record::Register& reg,
                               std::string_view words,
                               const std::vector<record::TableRowKind>& kinds,
                               const std::optional<record::SourceId>& source) {
    trade::Question question;
    question.words = words;
    question.era = dateOf(reg, source);
    std::vector<TableOffer> found;
    const auto rows = trade::search(tables, question);
    if (!rows) return found;
    for (const auto& each : *rows)
        if (std::ranges::find(kinds, each.row->kind) != kinds.end()) found.push_back(offerOf(each));
    return found;
}

const std::vector<record::TableRowKind>& correctingKinds() {
    using record::TableRowKind;
    static const std::vector<TableRowKind> kKinds{
        TableRowKind::SheetChange,        TableRowKind::WoodMovement, TableRowKind::WoodShrinkage,
        TableRowKind::CastingContraction, TableRowKind::SurfaceLoss,  TableRowKind::Coating,
        TableRowKind::Expansion};
    return kKinds;
}

SizeAsked sizeAsked(const trade::Tables& tables, const record::Register& reg,
                    std::string_view words, const std::optional<record::SourceId>& source) {
    trade::Question where;
    where.era = dateOf(reg, source);
    const auto read = trade::tradeWords(tables, trimmed(words), where);
    SizeAsked asked;
    asked.question = read.question;
    for (const auto& meaning : read.meanings)
        for (const auto* row : meaning.rows) {
            const trade::FoundRow found{row, trade::erasMeet(row->era, where.era), true};
            asked.offers.push_back(offerOf(found));
        }
    if (read.settled() && asked.offers.size() == 1) asked.row = asked.offers.front().row;
    if (read.settled() && asked.offers.size() > 1)
        asked.question = fmt::format("Which of these is \"{}\" here?", trimmed(words));
    return asked;
}

}  // namespace app::session

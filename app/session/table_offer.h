#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/trade/trade.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Rows of the trade tables, offered where a reference, a correction or a mass is entered.
namespace app::session {

/// One row in words.
struct TableOffer {
    std::string row;    ///< its id: what `table_row` remembers
    std::string words;  ///< "Standard railway gauge 4 ft 8 1/2 in: distance between inner faces …"
    std::string value;   ///< "56.5 in, u 0.4"
    std::string source;  ///< who says so, and where it is from memory
    std::string unfit;   ///< why it may not be meant (another time, another place); empty: it fits
};

/// A row in words.
[[nodiscard]] TableOffer offerOf(const evidence::trade::FoundRow& found);

/// "0.064 in, u 0.00111; Imperial Standard Wire Gauge No. 16: diameter …; of another time (…)": one
/// of several that can be meant.
[[nodiscard]] std::string candidateWords(const TableOffer& offer);

/// "Standard railway gauge 4 ft 8 1/2 in (rg-standard)": what a person picks from a list.
[[nodiscard]] std::string pickedWords(const evidence::trade::Row& row);
/// The row that a text means: such words, or an id alone; null where it means none.
[[nodiscard]] const evidence::trade::Row* rowPicked(const evidence::trade::Tables& tables,
                                                    std::string_view text);

/// The rows with these words that fit the date of `source` (where it has one) first; all kinds in
/// `kinds` count. Empty words find every row.
[[nodiscard]] std::vector<TableOffer> offers(
    const evidence::trade::Tables& tables, const evidence::record::Register& reg,
    std::string_view words, const std::vector<evidence::record::TableRowKind>& kinds,
    const std::optional<evidence::record::SourceId>& source = std::nullopt);

/// Kinds that correct a reading.
[[nodiscard]] const std::vector<evidence::record::TableRowKind>& correctingKinds();

/// Words in which the trade names a size ("16 gauge"), and what they can mean.
struct SizeAsked {
    std::string question;            ///< "… has 6 meanings here: which system was meant?"
    std::vector<TableOffer> offers;  ///< empty: no such words; each begins with its system
    std::optional<std::string> row;  ///< the one row meant, where the words leave nothing open
};
[[nodiscard]] SizeAsked sizeAsked(const evidence::trade::Tables& tables,
                                  const evidence::record::Register& reg, std::string_view words,
                                  const std::optional<evidence::record::SourceId>& source);

}  // namespace app::session

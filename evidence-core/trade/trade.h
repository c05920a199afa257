#pragma once

#include "evidence-core/trade/tables.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Trade tables: what a known thing measures, what stock was called, what materials weigh and how
/// they move. docs/method/trade-tables.md says where the rows come from.
namespace evidence::trade {

/// What is looked for. Everything may be left open.
struct Question {
    std::string words;  ///< all must stand in the row: its name, its system, its source …
    std::optional<quantity::EdtfDate> era;
    std::string region;  ///< in words or as a country's code
    std::optional<record::TableRowKind> kind;
};

/// A row that was found. One that does not fit era or place is not hidden: tables are not
/// complete, and a drawing office may have kept old habits.
struct FoundRow {
    const Row* row = nullptr;
    bool fitsEra = true;
    bool fitsRegion = true;

    [[nodiscard]] bool fits() const { return fitsEra && fitsRegion; }
};

/// The rows with all of the words, those that fit first, then by how well the words fit the name,
/// then in the order of the tables (own rows first). A word may be the beginning of one in the
/// row. Error: BadValue at "region" where it names no known place.
[[nodiscard]] Result<std::vector<FoundRow>> search(const Tables& tables, const Question& question);

/// True unless the two certainly do not meet; an approximate or uncertain date reaches ten years
/// farther on both sides (ours), an open end for ever.
[[nodiscard]] bool erasMeet(const std::optional<quantity::EdtfDate>& a,
                            const std::optional<quantity::EdtfDate>& b);

/// One thing that a trade word can mean.
struct Meaning {
    const System* system = nullptr;
    std::vector<const Row*>
        rows;             ///< thickness and width of "2 x 4", pitch and diameter of a thread
    bool fitsEra = true;  ///< of one of the rows at least
    bool fitsRegion = true;
};

/// A size as the trade calls it ("16 gauge", "2 x 4", "No. 8 screw", "1/2 in pipe", "3/8 Whit").
/// Settled only where the words themselves name one system; else somebody has to say which, though
/// the tables may know one alone. Era and region put the likely ones first and never settle it.
struct TradeWords {
    std::string words;              ///< as typed
    std::vector<Meaning> meanings;  ///< none: these are no trade words
    std::string question;           ///< where it is not settled: what to ask
    bool named = false;             ///< the words name a system

    [[nodiscard]] bool settled() const { return named && meanings.size() == 1; }
};

/// Reads such words. `era` and `region` of the question are used for the order, the rest is not.
/// A region that names no known place counts as none.
[[nodiscard]] TradeWords tradeWords(const Tables& tables, std::string_view words,
                                    const Question& where = {});

}  // namespace evidence::trade

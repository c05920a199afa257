#pragma once

#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/frame.h"
#include "evidence-core/record/reading.h"
#include "evidence-core/refusal.h"
#include "evidence-core/trade/correction.h"
#include "evidence-core/trade/row.h"

#include <string>

/// Parts of records made from rows of the trade tables. Each remembers its row; its reason says in
/// words what the row is and who says so, so that it can be read without the table.
namespace app::session {

/// A known length. Its basis is `trade-rule`; a row that people added brings its own source, which
/// states it. `asTyped` are the words that were read as the row, such as "16 gauge"; empty: none.
/// Error: WrongUse at "length/value" where the row is no length.
[[nodiscard]] evidence::Result<evidence::record::KnownLength> lengthFromTable(
    const evidence::trade::Row& row, const std::string& asTyped);

/// A correction; an amount is in `unit`, that of the reading's value. Errors: those of
/// `trade::correctionBy`.
[[nodiscard]] evidence::Result<evidence::record::Correction> correctionFromTable(
    const evidence::trade::Row& row, const evidence::trade::Circumstances& circumstances,
    evidence::quantity::Unit unit);

/// What is typed beside the row of a correction: "7 to 12" (moisture now and when made, per cent;
/// u 1 each unless "7 ± 2" says otherwise), "pattern" or "copy", "80 years, 2 faces", "2 faces",
/// "40 to 68" (degrees Fahrenheit now and meant). Errors: MissingKey and BadValue at
/// "circumstances".
[[nodiscard]] evidence::Result<evidence::trade::Circumstances> circumstancesTyped(
    evidence::record::TableRowKind kind, const std::string& text);

/// What to type there, for a form; empty where the row asks for nothing.
[[nodiscard]] std::string circumstancesWanted(evidence::record::TableRowKind kind);

/// "Table row swg-16: Imperial Standard Wire Gauge No. 16, diameter …; source." with what was
/// typed in front.
[[nodiscard]] std::string tableReason(const evidence::trade::Row& row, const std::string& asTyped);

}  // namespace app::session

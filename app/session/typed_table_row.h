#pragma once

#include "evidence-core/record/table_row.h"
#include "evidence-core/refusal.h"

#include <string>

namespace app::session {

/// A row of one's own for the trade tables as a form holds it: all texts as typed.
struct TypedTableRow {
    evidence::record::TableRowKind kind = evidence::record::TableRowKind::Length;
    std::string name;
    std::string measures;
    std::string value;
    std::string unit;
    std::string u;
    std::string era;
    std::string region;
    std::string note;
    evidence::record::SourceId source;
};

/// For `planTableRow`. Errors: those of `typedValue`, at "value" and "u".
[[nodiscard]] evidence::Result<evidence::record::TableRow> tableRowOf(const TypedTableRow& typed);

}  // namespace app::session

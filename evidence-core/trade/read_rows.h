#pragma once

#include "evidence-core/trade/row.h"

#include <string_view>
#include <vector>

/// Private to trade/.
namespace evidence::trade {

/// The rows of a table of the program, all of one kind. Errors: BadDocument with the line's number,
/// for a row without an id, a source, a spread, a unit or an era that can be read.
[[nodiscard]] Result<std::vector<Row>> readRows(std::string_view table, record::TableRowKind kind,
                                                std::string_view text);

}  // namespace evidence::trade

#pragma once

#include "evidence-core/refusal.h"

#include <string>
#include <string_view>
#include <vector>

/// Private to trade/: the tables as they stand in their files.
namespace evidence::trade {

using CsvLine = std::vector<std::string>;

/// A comma-separated table (RFC 4180; lines may end in LF alone), its first line the names of the
/// columns. Every line has as many fields. Errors: BadDocument, the place is "line N".
[[nodiscard]] Result<std::vector<CsvLine>> csvLines(std::string_view text);

}  // namespace evidence::trade

#pragma once

#include "evidence-core/exchange/json_value.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <string_view>

namespace evidence::exchange {

/// One record of any kind as the exchange document writes it.
[[nodiscard]] Json toJson(const record::AnyRecord& record);

/// The table of a record in the exchange document: "readings", and "archive" for the archive.
[[nodiscard]] std::string_view tableOf(const record::AnyRecord& record);

/// Reads one record of the table of that name. Errors: as `readDocument`, the place being the JSON
/// pointer inside `json`; WrongUse for a table that is not there.
[[nodiscard]] Result<record::AnyRecord> recordFromJson(std::string_view table, const Json& json);

}  // namespace evidence::exchange

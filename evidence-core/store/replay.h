#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <SQLiteCpp/Database.h>

#include <optional>
#include <string>
#include <string_view>

namespace evidence::store {

/// The register as it was after the last journal entry that is not later than `time`: today's, with
/// the later entries taken back. Errors: BadDate, Damaged.
[[nodiscard]] Result<record::Register> registerAt(SQLite::Database& db, std::string_view time);

/// Where the tables are not what the journal's entries, carried out one after the other, give: the
/// first record that differs, in one sentence. Nothing where they agree.
[[nodiscard]] std::optional<std::string> differenceFromReplay(SQLite::Database& db);

}  // namespace evidence::store

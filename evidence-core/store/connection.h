#pragma once

#include "evidence-core/refusal.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <filesystem>
#include <memory>

namespace evidence::store {

/// "LLin" as a big-endian number: tells our files from other SQLite databases.
inline constexpr std::int32_t kApplicationId = 0x4C4C696E;

/// Makes the database file, which must not exist, with the newest schema. Throws
/// `SQLite::Exception` where the system fails.
[[nodiscard]] std::unique_ptr<SQLite::Database> createDatabase(const std::filesystem::path& file);

/// Opens one of ours: header, schema and pages are checked before anything is written; an older
/// schema is brought up to date after a copy beside it (`register.sqlite.v<N>`).
/// Errors: NotAnArchive, NewerArchive, Damaged. Nothing is changed then.
[[nodiscard]] Result<std::unique_ptr<SQLite::Database>> openDatabase(
    const std::filesystem::path& file);

}  // namespace evidence::store

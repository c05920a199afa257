#pragma once

#include "evidence-core/exchange/json_value.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// Records in their tables: one column per key. Relations hold their formula by id here.
namespace evidence::store {

/// All records of all tables and the archive's own row, in their order. Formulas are by id.
/// Errors: Damaged where a JSON column cannot be read.
[[nodiscard]] Result<record::Register> loadTables(SQLite::Database& db);

/// The record of the same kind and id as `model`; nothing where there is none.
[[nodiscard]] Result<std::optional<record::AnyRecord>> loadRecord(SQLite::Database& db,
                                                                  const record::AnyRecord& model);

void insertRecord(SQLite::Database& db, const record::AnyRecord& record);
void updateRecord(SQLite::Database& db, const record::AnyRecord& record);
void deleteRecord(SQLite::Database& db, const record::AnyRecord& record);

}  // namespace evidence::store

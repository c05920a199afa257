#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/store/register_store.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <string_view>
#include <vector>

/// The full-text index: one row per record with all its texts (ids and hashes left out). Written
/// here and not by triggers, which may not touch it while the schema is untrusted.
namespace evidence::store {

void addToIndex(SQLite::Database& db, std::int64_t number, const record::AnyRecord& record);
void removeFromIndex(SQLite::Database& db, std::int64_t number);

[[nodiscard]] std::vector<RegisterStore::Hit> searchIndex(SQLite::Database& db,
                                                          std::string_view words, int most);

}  // namespace evidence::store

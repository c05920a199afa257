#pragma once

#include "evidence-core/record/change.h"
#include "evidence-core/refusal.h"
#include "evidence-core/store/register_store.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>

namespace evidence::store {

/// Does the work of `RegisterStore::apply` inside the caller's transaction.
[[nodiscard]] Result<std::uint64_t> applyChanges(SQLite::Database& db, const record::ChangeSet& set,
                                                 const Act& act);

}  // namespace evidence::store

#pragma once

#include "evidence-core/record/register.h"

#include <SQLiteCpp/Database.h>

#include <string>

namespace evidence::store {

/// `reg`, whose relations hold their formulas by id, with them printed by its dimensions' codes.
[[nodiscard]] record::Register withFormulasByCode(record::Register reg);

/// The other way for one relation, by the codes in the database as it is now.
[[nodiscard]] std::string formulaByIdIn(SQLite::Database& db, const std::string& formula);
[[nodiscard]] std::string formulaByCodeIn(SQLite::Database& db, const std::string& formula);

}  // namespace evidence::store

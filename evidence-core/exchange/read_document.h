#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <string_view>

namespace evidence::exchange {

/// What an exchange document says, read but not yet checked against itself or an archive.
struct Document {
    record::Register reg;
    bool hasArchive = false;  ///< it has the key "archive"
};

/// Reads keys, types and words of an exchange document. What it refers to, its values, units, dates
/// and formulas are checked by `planImport`, which knows what the archive holds already.
/// Errors, each with the JSON pointer as place: BadDocument, UnknownKey, MissingKey, WrongType,
/// BadValue, NotFinite, TooLarge, DuplicateId (a key twice).
[[nodiscard]] Result<Document> readDocument(std::string_view text);

}  // namespace evidence::exchange

#pragma once

#include "app/report/sections.h"

/// What people decided, handed out, made and asked about one dimension or particular. `dimension`
/// is absent for a particular.
namespace app::report {

void writeRulings(Writing& writing, const std::string& id,
                  const evidence::record::Dimension* dimension);
void writeDeparturesOf(Writing& writing, const std::string& id,
                       const evidence::record::Dimension* dimension);
/// Slips, as built, sign-offs, grades set lower, queries.
void writeWhatFollowed(Writing& writing, const std::string& id,
                       const evidence::record::Dimension* dimension);

/// One departure as facts: from, to, why, rule, who approved, what else it touches, can it be
/// undone.
[[nodiscard]] Facts departureFacts(const RegisterIndex& index,
                                   const evidence::record::Departure& departure);

/// Red-pencil notes: each finding's sentence and what would settle it.
void writeFindingsOn(Writing& writing, const std::string& id);

}  // namespace app::report

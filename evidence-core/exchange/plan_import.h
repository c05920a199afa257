#pragma once

#include "evidence-core/exchange/read_document.h"
#include "evidence-core/record/change.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <string_view>

namespace evidence::exchange {

enum class ImportMode {
    Add,     ///< an id that is taken is an error
    Update,  ///< a record whose id is taken replaces that record as a whole
};

/// What importing `incoming` does to `current`, or the first reason why it cannot be done: a
/// reference to a record that is neither in the document nor in the archive, an id or code that is
/// taken, a value, unit, date or formula that cannot be read, points, covariances or keys that do
/// not fit together. The place is the JSON pointer in the document.
///
/// `archive` applies to an empty archive (no records but people) or with `Update`; states append.
/// Sources, dimensions and particulars without a code get S1, D1, P1 … in order, taken ones passed
/// over; with `Update` they keep the code they have.
[[nodiscard]] Result<record::ChangeSet> planImport(const record::Register& current,
                                                   const Document& incoming, ImportMode mode);

/// A document as a register of its own: read, checked, codes given.
[[nodiscard]] Result<record::Register> readRegister(std::string_view text);

}  // namespace evidence::exchange

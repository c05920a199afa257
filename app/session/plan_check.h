#pragma once

#include "app/session/actions.h"
#include "evidence-core/record/register.h"

#include <functional>
#include <string>
#include <string_view>

namespace app::session {

/// Which field of the form stands behind a place in a record that a plan makes. `pointer` is the
/// JSON pointer inside the record, empty for the record as a whole.
using FieldOf =
    std::function<std::string(const evidence::record::AnyRecord& made, std::string_view pointer)>;

/// The pointer without its leading stroke: for plans whose form has the record's own keys.
[[nodiscard]] std::string sameField(const evidence::record::AnyRecord& made,
                                    std::string_view pointer);

/// `set`, where the register after it would be taken by an import and can be analysed: every record
/// it makes or changes refers to records that are there, and its numbers, units and times can be
/// read. Errors: as the exchange reader's, with the place told by `fieldOf`.
[[nodiscard]] evidence::Result<evidence::record::ChangeSet> checked(
    const Context& context, evidence::record::ChangeSet set, const FieldOf& fieldOf = sameField);

}  // namespace app::session

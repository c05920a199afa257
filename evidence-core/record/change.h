#pragma once

#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

/// One record made (`before` absent), changed, or, by undo alone, taken back (`after` absent).
/// Both sides are of the same kind and have the same id.
struct Change {
    std::optional<AnyRecord> before;
    std::optional<AnyRecord> after;

    friend bool operator==(const Change&, const Change&) = default;
};

/// What one user action does to the register: all of it or nothing.
struct ChangeSet {
    std::string what;  ///< the action in a few words for the journal, such as "rule D12"
    std::vector<Change> changes;

    friend bool operator==(const ChangeSet&, const ChangeSet&) = default;
};

/// The same change backwards; what undo appends to the journal.
[[nodiscard]] ChangeSet inverse(const ChangeSet& set);

/// `reg` after `set`. Asserts that every `before` is what the register holds.
[[nodiscard]] Register applied(Register reg, const ChangeSet& set);

}  // namespace evidence::record

#pragma once

#include "app/session/actions.h"

#include <optional>

namespace app::session {

/// What the page made as a record without an id, nothing checked.
[[nodiscard]] evidence::record::Mark asPlaced(const MarkDraft& draft);

/// The record of a mark as the page made it, with an id of its own. Errors, at "mark/…":
/// MissingTarget, BadValue where the register has no such page. Its points are looked at by
/// `checked`.
[[nodiscard]] evidence::Result<evidence::record::Mark> markOf(const Context& context,
                                                              const MarkDraft& draft);

/// Why the mark has no such size, at "mark/points"; nothing where it has one. Code: BadValue.
[[nodiscard]] std::optional<evidence::Refusal> lacksSize(const evidence::record::Mark& mark,
                                                         evidence::record::DimensionQuantity asked);

}  // namespace app::session

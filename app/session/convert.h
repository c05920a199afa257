#pragma once

#include "evidence-core/refusal.h"
#include "imaging/refusal.h"

#include <string>

namespace app::session {

/// What the imaging refused, in the core's terms, so that a plan's caller has one kind of refusal.
/// The sentence is kept; `prefix`, such as "mark", stands before its place. The core has no codes
/// for pictures: what they tell apart becomes BadValue (the mark), BadDocument (the file) or
/// MissingTarget (the page).
[[nodiscard]] evidence::Refusal converted(const imaging::Refusal& refusal,
                                          const std::string& prefix = {});

}  // namespace app::session

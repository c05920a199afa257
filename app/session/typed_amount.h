#pragma once

#include "evidence-core/quantity/unit.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>

namespace app::session {

/// A tolerance, an uncertainty or another plain amount as typed ("1/16", "0.5 mm"), as a number in
/// `unit`; nothing where nothing was typed. A bare number is in `unit`. Errors, at `place`: those
/// of `parseQuantity`, and BadValue for an amount below 0.
[[nodiscard]] evidence::Result<std::optional<double>> typedAmount(std::string_view text,
                                                                  evidence::quantity::Unit unit,
                                                                  std::string place);

}  // namespace app::session

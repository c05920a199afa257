#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>

namespace app::session {

/// A tolerance (the amount after ±) of the dimension `on`, in its unit; nothing where nothing was
/// typed. Errors, at "tolerance": those of `typedAmount`; WrongUse where `on` is no dimension.
[[nodiscard]] evidence::Result<std::optional<double>> toleranceTyped(
    const std::string& text, const evidence::record::AnyId& on,
    const evidence::record::Register& reg);

}  // namespace app::session

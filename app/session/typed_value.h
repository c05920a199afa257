#pragma once

#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>

namespace app::session {

/// A value as a person typed it, read as `measure`; a bare number is in `bareUnit`. Its text is
/// kept. Errors, at `place`: MissingKey where it is blank, else those of `parseQuantity`.
[[nodiscard]] evidence::Result<evidence::quantity::Written> typedValue(
    std::string_view text, evidence::quantity::Measure measure, evidence::quantity::Unit bareUnit,
    std::string place);

/// What to keep beside the text: the unit that a bare number was taken in, so that the value still
/// means the same should the dimension's unit change; nothing where the text has its own.
[[nodiscard]] std::optional<std::string> unitBeside(const evidence::quantity::Written& value);

}  // namespace app::session

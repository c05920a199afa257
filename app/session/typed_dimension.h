#pragma once

#include "app/session/actions.h"

#include <string>
#include <vector>

namespace app::session {

/// A dimension as a form holds it: all texts as typed, blank where nothing was.
struct TypedDimension {
    std::string name;
    std::string component;
    evidence::record::DimensionQuantity quantity = evidence::record::DimensionQuantity::Length;
    std::string unit;
    std::string tolerance;  ///< a bare number is in `unit`
    bool critical = false;
};

/// For `planDimension`. Errors: BadUnit at "unit"; those of `typedAmount` at "tolerance".
[[nodiscard]] evidence::Result<DimensionDraft> draftOf(const TypedDimension& typed);

/// Names of the units that the quantity can be in, the canonical one first.
[[nodiscard]] std::vector<std::string> unitsFor(evidence::record::DimensionQuantity quantity);

}  // namespace app::session

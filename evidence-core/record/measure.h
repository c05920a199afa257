#pragma once

#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/dimension.h"

namespace evidence::record {

/// What kind of physical thing a dimension measures.
[[nodiscard]] quantity::Measure measureOf(DimensionQuantity quantity);

/// The unit a dimension's results and bare numbers are in: its own, else the canonical one.
/// Entry: `dimension.unit`, where given, is a unit of its measure.
[[nodiscard]] quantity::Unit unitOf(const Dimension& dimension);

}  // namespace evidence::record

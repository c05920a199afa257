#pragma once

#include "evidence-core/network/worth.h"
#include "evidence-core/quantity/format.h"

namespace app::session {

/// A single value with its own uncertainty, ± half of the 95 % interval; canonical units.
[[nodiscard]] evidence::quantity::ShownValue shownWithSpread(
    double value, const evidence::network::Spread& spread, evidence::quantity::Measure measure,
    const evidence::quantity::Display& display);

/// Half-width of the rectangle with this standard uncertainty.
[[nodiscard]] double rectangularHalfWidth(const evidence::network::Spread& spread);

}  // namespace app::session

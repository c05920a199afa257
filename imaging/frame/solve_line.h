#pragma once

#include "evidence-core/frame/line_map.h"
#include "imaging/frame/known.h"

namespace imaging::frame {

struct LineSolution : Solution {
    evidence::frame::LineMap map;

    /// Carries a pixel to (place along the line, 0); parameters from index `first` on.
    [[nodiscard]] Carrier carrier(int first) const;
};

/// Solves the frame `line` from three or more known points of one straight line (cross-ratio),
/// together with known lengths along it. Errors (place ""): NoSolution: fewer than three points,
/// points that coincide or lie off one line by more than a tenth of their extent.
[[nodiscard]] Result<LineSolution> solveLine(const Inputs& inputs, const Known& known);

}  // namespace imaging::frame

#pragma once

#include "evidence-core/frame/upright_map.h"
#include "imaging/frame/known.h"

namespace imaging::frame {

struct UprightSolution : Solution {
    evidence::frame::UprightMap map;
    /// +1 where the ground lies on the side of the horizon that cos ψ·n₁ + sin ψ·n₂ > δ, else −1.
    double groundSide = 1;

    /// Height of a segment or line mark, its end on the ground found by itself; parameters from
    /// index `first` on. None where the base lies on the horizon.
    [[nodiscard]] std::optional<Tracked> height(const Reader& reader, const Feature& feature,
                                                int first) const;
    /// Height of a point above a base point.
    [[nodiscard]] std::optional<Tracked> height(const TrackedPoint& base, const TrackedPoint& top,
                                                int first) const;
};

/// Solves the frame `upright` from two groups or more of parallel ground lines (two directions),
/// two verticals or more (known heights count as verticals) and a known height.
/// Errors (place: "", "/ground", "/vertical", "/references"): NoSolution with the reason.
[[nodiscard]] Result<UprightSolution> solveUpright(const Inputs& inputs, const Known& known);

}  // namespace imaging::frame

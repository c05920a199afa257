#pragma once

#include "evidence-core/frame/plane_map.h"
#include "imaging/frame/known.h"

namespace imaging::frame {

enum class PlaneKind {
    Perspective,  ///< frame `plane`: a photograph at any angle
    Stretched,    ///< frame `stretch`: a flat sheet, two scales and a shear
};

/// Priors of a stretched sheet, as inputs.
struct StretchPriors {
    std::optional<int> scaleX;  ///< inches per px
    std::optional<int> scaleY;
    std::optional<int> shear;
};

struct PlaneSolution : Solution {
    evidence::frame::PlaneMap map;
    /// Which of the map's parameters were free, in the order of the adjustment.
    std::vector<int> free;

    /// Carries pixels (lens distortion taken out) to inches; parameters from index `first` on.
    [[nodiscard]] Carrier carrier(int first) const;
};

/// Solves a plane from known points, lengths, right angles and parallels together, or a stretched
/// sheet from lengths, right angles and points. With fewer than two known points place and turn of
/// the plane stay free, and are not solved for.
/// Starts: normalised direct linear transform from four points and more; else vanishing points of
/// the parallels, then the linear equations of lengths and right angles for the metric, from
/// several vanishing lines; the best after adjustment wins.
/// Errors (place ""): NoSolution with the reason: too few references, points on one line, a layout
/// that leaves scale or slant open, marks at the vanishing line.
/// Source: R. Hartley and A. Zisserman, Multiple View Geometry, alg. 4.2; D. Liebowitz and A.
/// Zisserman, Metric rectification for perspective images of planes, CVPR 1998 (both from memory).
[[nodiscard]] Result<PlaneSolution> solvePlane(const Inputs& inputs, const Known& known,
                                               PlaneKind kind, const StretchPriors& priors = {});

}  // namespace imaging::frame

#pragma once

#include "imaging/refusal.h"

#include <optional>
#include <span>
#include <vector>

/// Frames with one scale for the whole sheet: `uniform` from known lengths.
namespace imaging::frame {

/// One known length: its size on the sheet and what is known of it.
struct ScaleReference {
    double pixels = 0;       ///< px, > 0
    double uPixels = 0;      ///< standard uncertainty of `pixels`
    double inches = 0;       ///< > 0
    double uInches = 0;      ///< standard uncertainty of `inches`
    bool checkOnly = false;  ///< has a residual, but no say in the scale
};

struct ScaleResidual {
    double residual = 0;      ///< known − adjusted length, inches
    double redundancy = 0;    ///< 0 … 1
    std::optional<double> w;  ///< residual over its own standard deviation; none without redundancy
    std::optional<double> mde;  ///< inches: error found with power 0.80 at 0.001; likewise
};

/// s = Σ w d L / Σ w d² with w = 1/(u²(L) + s² u²(d)) (docs/method/scales.md), iterated until s is
/// still.
struct Scale {
    double inchesPerPixel = 0;
    std::vector<double> byInches;  ///< ∂s/∂L of each reference
    std::vector<double> byPixels;  ///< ∂s/∂d of each reference
    double chi2 = 0;
    int redundancy = 0;  ///< references that adjust, less one
    double rmsPx = 0;    ///< of the residuals, in px
    std::vector<ScaleResidual> residuals;
};

/// Errors: NoSolution without an adjusting reference, or where lengths are not above zero.
/// A reference without any uncertainty at all gets the weight of a rounding error, 1e-9 of itself.
[[nodiscard]] Result<Scale> solveScale(std::span<const ScaleReference> references);

}  // namespace imaging::frame

#pragma once

#include "imaging/mark/profile_fit.h"

#include <span>

namespace imaging::mark {

struct RimFit {
    CircleFit circle;
    double rmsPx = 0;
    double widthPx = 0;
    long pixels = 0;
};

/// Fits the circle near the rough rim points to its edge or drawn line: radial profiles sector by
/// sector, then the weighted geometric least-squares circle through them, robustly. The shift of a
/// blurred curved edge towards the centre, s²/(2R), is taken out (docs/method/marks.md).
/// Rough points that leave more than half of the circle open mark an arc; only that arc is used.
/// Errors: BadValue for points on one line; NoFit; OutsideSheet.
[[nodiscard]] Result<RimFit> fitRim(const raster::GreyImage& image,
                                    std::span<const PixelPoint> rough, Profile profile,
                                    double reach);

}  // namespace imaging::mark

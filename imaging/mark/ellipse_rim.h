#pragma once

#include "imaging/mark/profile_fit.h"

#include <span>

namespace imaging::mark {

struct EllipseRimFit {
    EllipseFit ellipse;
    double rmsPx = 0;
    double widthPx = 0;
    long pixels = 0;
};

/// Least share of an ellipse that rim points must span: less leaves its axes open (a quarter of the
/// rim with 0.3 px of noise gives half-axes that are off by a seventh; docs/method/marks.md).
inline constexpr double kLeastArc = 120;  // degrees

/// Fits the ellipse near five or more rough rim points to its edge or drawn line: profiles square
/// to the rim sector by sector, then the weighted geometric least-squares ellipse through them,
/// robustly. Errors: BadValue for points that give no ellipse or span less than kLeastArc; NoFit;
/// OutsideSheet.
[[nodiscard]] Result<EllipseRimFit> fitEllipseRim(const raster::GreyImage& image,
                                                  std::span<const PixelPoint> rough,
                                                  Profile profile, double reach);

}  // namespace imaging::mark

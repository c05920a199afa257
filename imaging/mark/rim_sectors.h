#pragma once

#include "imaging/mark/profile_fit.h"

#include <numbers>
#include <span>
#include <vector>

namespace imaging::mark {

/// A run of angles, rad.
struct Arc {
    double from = 0;
    double extent = 2 * std::numbers::pi;
};

/// All round, or the arc that the angles cover where their widest gap is over half. Angles within
/// one turn of each other, at least one.
[[nodiscard]] Arc arcCovered(std::vector<double> angles);

/// A short piece of a rim to look at: part of the circle that touches it there.
struct SectorPlace {
    PixelPoint bend = PixelPoint::Zero();  ///< centre of curvature
    double radius = 0;                     ///< of curvature, px
    double angle = 0;                      ///< of the outward normal, rad
    double half = 0;                       ///< half of the sector's opening about `bend`, rad
};

/// Where the rim was found there; `variance` square to it, px².
struct RimPoint {
    PixelPoint at = PixelPoint::Zero();
    PixelPoint outward = PixelPoint::Zero();
    double variance = 0;
    double width = 0;
    long pixels = 0;
};

struct RimSectors {
    std::vector<RimPoint> found;
    int tried = 0;
    long unreadable = 0;
    long looked = 0;
};

inline constexpr double kSectorLength = 14;  ///< px along the rim, at least

/// Fits the edge or drawn line in each sector along its radius, `reach` px inward and outward. The
/// shift of a blurred curved edge towards the centre of curvature, s²/(2R), is taken out.
[[nodiscard]] RimSectors measureSectors(const raster::GreyImage& image,
                                        std::span<const SectorPlace> places, Profile profile,
                                        double reach);

}  // namespace imaging::mark

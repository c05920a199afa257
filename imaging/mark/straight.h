#pragma once

#include "imaging/mark/profile_fit.h"

#include <vector>

namespace imaging::mark {

/// A stretch of a line in px along it, from its first point.
struct Stretch {
    double from = 0;
    double to = 0;
};

/// A straight line fitted to pixels: offset(t) = alpha + beta·t square to the line as placed, t px
/// along it from its first point.
struct StraightFit {
    PixelPoint origin = PixelPoint::Zero();  ///< the placed line's first point
    PixelPoint along = PixelPoint::Zero();   ///< its direction, unit
    PixelPoint normal = PixelPoint::Zero();  ///< `along` turned by 90° (x to y)
    double alpha = 0;
    double beta = 0;
    Eigen::Matrix2d covariance = Eigen::Matrix2d::Zero();  ///< of alpha, beta; px², px, 1
    double rmsPx = 0;                                      ///< of the pieces about the line
    double widthPx = 0;                                    ///< of a drawn line
    long pixels = 0;

    [[nodiscard]] PixelPoint at(double t) const {
        return origin + along * t + normal * (alpha + beta * t);
    }
    /// Variance of the offset at t, px².
    [[nodiscard]] double variance(double t) const {
        return covariance(0, 0) + 2 * t * covariance(0, 1) + t * t * covariance(1, 1);
    }
};

/// Fits the line from p to q over the given stretches of it: piece by piece across, then a robust
/// straight line through the pieces; `reach` px to either side. Refused (NoFit) where fewer than
/// half of the pieces show an edge or line.
[[nodiscard]] Result<StraightFit> fitStraight(const raster::GreyImage& image, const PixelPoint& p,
                                              const PixelPoint& q, Profile profile, double reach,
                                              const std::vector<Stretch>& stretches);

}  // namespace imaging::mark

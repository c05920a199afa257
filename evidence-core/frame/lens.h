#pragma once

#include "evidence-core/frame/pixel_geometry.h"

#include <Eigen/Core>

namespace evidence::frame {

/// Radial distortion of a whole picture, in the direction that takes it out:
///
///     p' = c + (p − c)·(1 + k₁ρ² + k₂ρ⁴),   ρ = |p − c| / unit
///
/// No inverse is ever needed: marks are straightened, the picture is not.
/// Source: D. C. Brown, Close-range camera calibration, 1971 (radial terms; from memory).
struct Lens {
    static constexpr int kParameters = 4;
    double unit = 1;                                       ///< px, a constant
    Eigen::Vector4d parameters = Eigen::Vector4d::Zero();  ///< cx, cy (px), k1, k2
};

/// A pixel with the distortion taken out, and its derivatives.
struct Straightened {
    Point at = Point::Zero();
    Eigen::Matrix2d byPixel = Eigen::Matrix2d::Identity();
    Eigen::Matrix<double, 2, Lens::kParameters> byLens =
        Eigen::Matrix<double, 2, Lens::kParameters>::Zero();
};

/// Checked against numerical differences in tests/evidence-core/frame/lens_test.cpp.
[[nodiscard]] Straightened straightened(const Lens& lens, const Point& pixel);

/// Whether the mapping still grows outward at that pixel (d(ρ')/dρ > 0.2): beyond, it folds over.
[[nodiscard]] bool unfolds(const Lens& lens, const Point& pixel);

}  // namespace evidence::frame

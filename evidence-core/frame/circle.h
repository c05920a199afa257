#pragma once

#include "evidence-core/frame/pixel_geometry.h"

#include <Eigen/Core>

#include <optional>
#include <span>

namespace evidence::frame {

/// A circle through rim points and how it follows them.
struct RimCircle {
    Point centre = Point::Zero();  ///< px
    double radius = 0;             ///< px
    double rms = 0;                ///< px, root mean square of the radial residuals
    /// 3×2n: derivatives of (cx, cy, r) by (x1, y1, x2, y2, …).
    Eigen::Matrix<double, 3, Eigen::Dynamic> jacobian;
};

/// Circle that fits n ≥ 3 rim points in the least squares of radial distances (geometric, equal
/// weights; exact for n = 3), with the exact derivatives of that minimum by every coordinate.
/// None where the points lie on one line, coincide, or the iteration finds no minimum.
/// Source: geometric circle fit by Gauss-Newton from an algebraic start, docs/method/marks.md.
[[nodiscard]] std::optional<RimCircle> circleThrough(std::span<const Point> rim);

}  // namespace evidence::frame

#pragma once

#include "evidence-core/frame/pixel_geometry.h"

#include <Eigen/Core>

#include <optional>
#include <span>

namespace evidence::frame {

/// An ellipse: half-axes a ≥ b, `angle` (rad, −π/2 … π/2) from x to the greater axis.
struct Ellipse {
    Point centre = Point::Zero();
    double a = 0;
    double b = 0;
    double angle = 0;

    /// The rim point at parameter t: centre + R(angle)·(a cos t, b sin t).
    [[nodiscard]] Point at(double t) const;
    /// Unit normal there, outward.
    [[nodiscard]] Point normal(double t) const;
    /// Radius of curvature there.
    [[nodiscard]] double curvatureRadius(double t) const;
    /// Parameter of the rim point nearest to `p`.
    [[nodiscard]] double foot(const Point& p) const;
};

/// An ellipse through rim points and how it follows them.
struct RimEllipse {
    Ellipse ellipse;
    double squares = 0;  ///< Σ w·d², d the distances of the points from the rim
    double rms = 0;      ///< px, of the distances, unweighted
    /// Covariance in the order cx, cy, a, b, angle for points of variance 1/w square to the rim.
    Eigen::Matrix<double, 5, 5> covariance = Eigen::Matrix<double, 5, 5>::Zero();
    /// 5×2n: derivatives by (x1, y1, x2, y2, …), to first order in the distances.
    Eigen::Matrix<double, 5, Eigen::Dynamic> jacobian;
    double covered = 0;  ///< rad of the parameter that the points span, widest gap left out
};

/// Ellipse of least Σ w·d² to n ≥ 5 rim points, d the true (orthogonal) distances; weights 1 where
/// none are given. Starts from the direct algebraic fit on centred and scaled points and from the
/// geometric circle; the better minimum is taken. None where the points lie on a line or on no
/// ellipse. Cost: about 1 µs for each point and iteration.
/// Source: W. Gander, G. Golub and R. Strebel, Least-squares fitting of circles and ellipses, BIT
/// 34 (1994), 558–578; start: R. Halir and J. Flusser, WSCG 1998. Checked by Gander's eight points
/// in tests/evidence-core/frame/ellipse_test.cpp.
[[nodiscard]] std::optional<RimEllipse> ellipseThrough(std::span<const Point> rim,
                                                       std::span<const double> weights = {});

}  // namespace evidence::frame

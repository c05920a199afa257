#pragma once

#include "evidence-core/frame/derived.h"
#include "evidence-core/frame/position.h"

#include <optional>

namespace evidence::frame {

/// Points in space to pixels by one camera with square pixels: the frame `camera`.
///
///     Y = exp([ω]×)·R₀·(X − C)        p = pp + f·(Y₁, Y₂)/Y₃,   f = e^φ
///
/// X and C in inches (C is where the camera stood), p, pp (principal point) and f in px. R₀ is a
/// constant rotation near the truth, so that the rotation vector ω stays small.
/// Source: R. Hartley and A. Zisserman, Multiple View Geometry, 6.1 (from memory).
struct CameraMap {
    enum Parameter { Omega = 0, Centre = 3, LogF = 6, Principal = 7 };
    static constexpr int kParameters = 9;
    Eigen::Matrix3d start = Eigen::Matrix3d::Identity();  ///< R₀
    /// Order: ω (3), C (3), φ, pp (2).
    Eigen::Matrix<double, kParameters, 1> parameters =
        Eigen::Matrix<double, kParameters, 1>::Zero();

    [[nodiscard]] Eigen::Matrix3d rotation() const;
    [[nodiscard]] Eigen::Vector3d centre() const { return parameters.segment<3>(Centre); }
    [[nodiscard]] double focal() const;
};

/// Pixel of a point in space with its derivatives.
struct Projection {
    Point pixel = Point::Zero();
    Eigen::Matrix<double, 2, CameraMap::kParameters> byModel =
        Eigen::Matrix<double, 2, CameraMap::kParameters>::Zero();
    Eigen::Matrix<double, 2, 3> byPoint = Eigen::Matrix<double, 2, 3>::Zero();
};

/// None where the point lies behind the camera or in its focal plane.
/// Checked against numerical differences in tests/evidence-core/frame/camera_map_test.cpp.
[[nodiscard]] std::optional<Projection> projected(const CameraMap& map, const Eigen::Vector3d& x);

/// A known plane in space: origin, and two unit vectors along it, square to each other.
struct SpacePlane {
    Eigen::Vector3d origin = Eigen::Vector3d::Zero();
    Eigen::Vector3d first = Eigen::Vector3d::UnitX();
    Eigen::Vector3d second = Eigen::Vector3d::UnitY();
};

/// The plane through three points, axes from the first towards the second. None on one line.
[[nodiscard]] std::optional<SpacePlane> planeThrough(const Eigen::Vector3d& a,
                                                     const Eigen::Vector3d& b,
                                                     const Eigen::Vector3d& c);

/// Where the ray of a pixel meets the plane, in the plane's two coordinates. None where the ray
/// runs within about 1° of the plane, or meets it behind the camera.
[[nodiscard]] std::optional<Position<CameraMap::kParameters>> carried(const CameraMap& map,
                                                                      const SpacePlane& plane,
                                                                      const Point& pixel);

/// Distance of the camera square to the plane, inches, with derivatives by the nine parameters.
[[nodiscard]] Derived<CameraMap::kParameters> distanceTo(const CameraMap& map,
                                                         const SpacePlane& plane);

/// Sine of the angle in the picture between the line pq and the direction from its middle to the
/// vanishing point of `direction` (unit vector in space): zero for a line along it.
/// Jacobian order: the nine parameters, px, py, qx, qy.
[[nodiscard]] Derived<13> offDirection(const CameraMap& map, const Eigen::Vector3d& direction,
                                       const Point& p, const Point& q);

}  // namespace evidence::frame

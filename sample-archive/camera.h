#pragma once

#include <opencv2/core.hpp>

#include <cstdint>

namespace sample {

/// A pinhole camera that looks at the body side of the car, with a lens that is all but free of
/// distortion. World axes as in truth.h, inches; pixels as everywhere in this project: origin at
/// the centre of the top-left pixel, x right, y down.
///
/// With yaw, pitch and roll 0 the film is parallel to the body side. A view camera with a rising
/// front keeps it so; what is left over are the small angles of a tripod on a cinder path.
struct Camera {
    cv::Vec3d position{85.75, 55.0, 515.0};
    double yaw = 0;                    ///< about the vertical, radians
    double pitch = 0;                  ///< about the car's length, radians
    double roll = 0;                   ///< about the line of sight, radians
    double focal = 6776.0;             ///< pixels
    cv::Point2d principal{1500, 850};  ///< pixels
    double distortion = 0;             ///< share by which a point at `radius` moves outward
    double radius = 1775.0;            ///< pixels, half the diagonal

    /// Pixel of a point in space.
    [[nodiscard]] cv::Point2d project(const cv::Vec3d& point) const;
    /// Unit-free direction (z component −1 in the camera's own axes) of the ray through a pixel, in
    /// world axes. Inverse of `project` to 1e-9 px.
    [[nodiscard]] cv::Vec3d rayThrough(const cv::Point2d& pixel) const;
    /// The same with the rotation worked out beforehand, for many rays.
    [[nodiscard]] cv::Vec3d rayThrough(const cv::Point2d& pixel, const cv::Matx33d& turned) const;
    /// Rotation from world axes to the camera's own (x right, y up, z toward the photographer).
    [[nodiscard]] cv::Matx33d rotation() const;
};

/// Where the photographer of the works photograph stood: 40 ft from the plate by pacing (standard
/// uncertainty 2 ft), film parallel to the car within half a degree (standard 0.15° about each
/// axis), distortion at the corners of at most 0.05 %.
[[nodiscard]] Camera worksCamera(std::uint64_t seed, double plateZ);

}  // namespace sample

#include "sample-archive/camera.h"

#include "sample-archive/chance.h"

#include <cmath>
#include <numbers>

namespace sample {

namespace {

constexpr double kPixelsPerInch = 14.0;
constexpr int kUndistortSteps = 5;

}  // namespace

cv::Matx33d Camera::rotation() const {
    const double cy = std::cos(yaw);
    const double sy = std::sin(yaw);
    const double cp = std::cos(pitch);
    const double sp = std::sin(pitch);
    const double cr = std::cos(roll);
    const double sr = std::sin(roll);
    const cv::Matx33d aboutUp(cy, 0, -sy, 0, 1, 0, sy, 0, cy);
    const cv::Matx33d aboutAlong(1, 0, 0, 0, cp, -sp, 0, sp, cp);
    const cv::Matx33d aboutSight(cr, -sr, 0, sr, cr, 0, 0, 0, 1);
    return aboutSight * aboutAlong * aboutUp;
}

cv::Point2d Camera::project(const cv::Vec3d& point) const {
    const cv::Vec3d seen = rotation() * (point - position);
    const cv::Point2d ideal(-focal * seen[0] / seen[2], focal * seen[1] / seen[2]);
    const double r2 = ideal.dot(ideal) / (radius * radius);
    return principal + ideal * (1 + distortion * r2);
}

cv::Vec3d Camera::rayThrough(const cv::Point2d& pixel) const {
    return rayThrough(pixel, rotation());
}

cv::Vec3d Camera::rayThrough(const cv::Point2d& pixel, const cv::Matx33d& turned) const {
    const cv::Point2d shown = pixel - principal;
    cv::Point2d ideal = shown;
    for (int step = 0; step < kUndistortSteps; ++step) {
        const double r2 = ideal.dot(ideal) / (radius * radius);
        ideal = shown / (1 + distortion * r2);
    }
    return turned.t() * cv::Vec3d(ideal.x / focal, -ideal.y / focal, -1.0);
}

Camera worksCamera(std::uint64_t seed, double plateZ) {
    Chance chance(seed, 2);
    constexpr double kDegree = std::numbers::pi / 180;
    const double distance = chance.normal(480.0, 24.0);
    Camera camera;
    camera.position = {85.75 + chance.normal(0.0, 3.0), 55.0 + chance.normal(0.0, 1.0),
                       plateZ + distance};
    camera.yaw = chance.normal(0.0, 0.15) * kDegree;
    camera.pitch = chance.normal(0.0, 0.15) * kDegree;
    camera.roll = chance.normal(0.0, 0.15) * kDegree;
    camera.distortion = chance.between(-5e-4, 5e-4);
    // He fills the plate with the car, so the lens extension follows from where he stands.
    camera.focal = kPixelsPerInch * (distance + 4.0);
    camera.principal = {1500 + 3 * chance.normal(0.0, 1.0), 850 + 3 * chance.normal(0.0, 1.0)};
    // With the film turned a little the car would leave the middle of the plate; he slides the
    // back.
    camera.principal.x -= camera.focal * std::tan(camera.yaw);
    camera.principal.y += camera.focal * std::tan(camera.pitch);
    return camera;
}

}  // namespace sample

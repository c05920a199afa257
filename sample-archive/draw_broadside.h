#pragma once

#include "sample-archive/camera.h"
#include "sample-archive/truth.h"

#include <opencv2/core.hpp>

#include <cstdint>

namespace sample {

/// The works photograph (source 5) with what is true about it.
struct Broadside {
    cv::Mat3b picture;  ///< 3000 × 1900, BGR
    Camera camera;      ///< where it was taken from
    Railcar car;        ///< the car as it stood there
    double bodyZ = 0;   ///< depth of the body-side plane, inches from the centre line
    double plateZ = 0;  ///< depth of the plate's face
    double wheelZ = 0;  ///< depth of the wheels' outer faces

    /// Pixel of a point of the body side.
    [[nodiscard]] cv::Point2d onSide(double x, double y) const {
        return camera.project({x, y, bodyZ});
    }
    /// Pixel of a point of the plate's face.
    [[nodiscard]] cv::Point2d onPlate(double x, double y) const {
        return camera.project({x, y, plateZ});
    }
};

/// The photograph of one seed. Blur 1.2 px, grain, vignette; JPEG comes when it is written.
[[nodiscard]] Broadside drawBroadside(std::uint64_t seed);

/// A print from the same negative (source 6): cropped to `kPrintCrop`, 2 % wider, softer and harder
/// in contrast.
[[nodiscard]] cv::Mat3b drawOtherPrint(const Broadside& negative, std::uint64_t seed);
inline constexpr int kPrintLeft = 260;
inline constexpr int kPrintTop = 210;
inline constexpr int kPrintWidth = 2300;
inline constexpr int kPrintHeight = 1500;
inline constexpr double kPrintStretch = 1.02;
inline constexpr double kPrintReduction = 0.8;

/// Pixel on the print of a pixel of the negative's scan.
[[nodiscard]] cv::Point2d onPrint(const cv::Point2d& negative);

}  // namespace sample

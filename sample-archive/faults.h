#pragma once

#include "sample-archive/chance.h"

#include <opencv2/core.hpp>

#include <cstdint>
#include <vector>

namespace sample {

// What time, chemistry and machines do to a picture. All work in place on light values from 0
// (black) to 1; none moves an edge except by its blur.

/// Gaussian unsharpness of lens and plate; sigma in pixels.
void blur(cv::Mat1f& light, double sigma);
/// Fall-off toward the corners: the corner keeps 1 − `share` of its light.
void vignette(cv::Mat1f& light, double share);
/// Silver grain: normal noise of standard deviation `deviation`, correlated over about `size`
/// pixels, strongest in the middle tones.
void grain(cv::Mat1f& light, double deviation, double size, std::uint64_t seed);

/// A fold across a sheet: from edge to edge along the line from `a` to `b`, in pixels.
struct Fold {
    cv::Point2d a;
    cv::Point2d b;
};

/// A ring left by a cup, or a water stain with a brown rim.
struct Stain {
    cv::Point2d centre;
    double radius = 0;
    double strength = 0;
};

/// Ground of a sheet before the ink: light values in BGR of aged support, with weave or fibre,
/// blotches, folds and stains.
struct Support {
    cv::Vec3d tint{0.86, 0.93, 0.95};
    double weave = 0;     ///< amplitude of the threads of linen, 0 for paper
    double blotches = 0;  ///< amplitude of slow unevenness
    double fibre = 0;     ///< amplitude of fine grain
    std::vector<Fold> folds;
    std::vector<Stain> stains;
};

[[nodiscard]] cv::Mat3f supportGround(cv::Size size, const Support& support, std::uint64_t seed);

}  // namespace sample

#pragma once

#include "imaging/raster/grey_image.h"

#include <Eigen/Core>
#include <opencv2/core.hpp>

#include <functional>
#include <random>

/// Rendered sheets with known truth, for the tests of fits.
namespace imaging::mark::test {

/// Renders `shape` (share of ink at a point, 0 or 1) as area averages: sampled 8 × 8 to a pixel,
/// blurred by a Gaussian of `blur` px, then averaged over each pixel. Paper and ink levels in grey.
/// Edges along the axes must lie on multiples of 1/8 px, where samples part; others average out.
cv::Mat render(int width, int height, const std::function<bool(double x, double y)>& shape,
               double blur, double paper = 200, double ink = 80);

/// The rendering with white noise of standard deviation `noise`, rounded to 8 bits.
raster::GreyImage photographed(const cv::Mat& clean, double noise, std::mt19937& random);

}  // namespace imaging::mark::test

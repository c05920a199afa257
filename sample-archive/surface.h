#pragma once

#include <opencv2/core.hpp>

#include <cstdint>

namespace sample {

/// Value noise in [0, 1], smooth over one unit of x and y.
[[nodiscard]] double softNoise(double x, double y, std::uint32_t salt);
/// Streaky grain of a painted or bare board, about zero, within ± 1; x and y in inches.
[[nodiscard]] double boardGrain(double x, double y, std::uint32_t salt);
/// How light one matchboard is among its neighbours, in [0, 1].
[[nodiscard]] double boardTone(std::int64_t board);
/// Ballast: stones of an inch or two, in [0, 1].
[[nodiscard]] double stones(double x, double z, std::uint32_t salt);
/// Bilinear value of a picture at a place in its pixels; 0 outside.
[[nodiscard]] double sampled(const cv::Mat1f& picture, double x, double y);

}  // namespace sample

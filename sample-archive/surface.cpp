#include "sample-archive/surface.h"

#include "sample-archive/chance.h"

#include <cmath>

namespace sample {

namespace {

double eased(double t) {
    return t * t * (3 - 2 * t);
}

}  // namespace

double softNoise(double x, double y, std::uint32_t salt) {
    const double left = std::floor(x);
    const double low = std::floor(y);
    const auto i = static_cast<std::int64_t>(left);
    const auto j = static_cast<std::int64_t>(low);
    const auto tx = static_cast<double>(eased(x - left));
    const auto ty = static_cast<double>(eased(y - low));
    const double below = latticeNoise(i, j, salt) * (1 - tx) + latticeNoise(i + 1, j, salt) * tx;
    const double above =
        latticeNoise(i, j + 1, salt) * (1 - tx) + latticeNoise(i + 1, j + 1, salt) * tx;
    return below * (1 - ty) + above * ty;
}

double boardGrain(double x, double y, std::uint32_t salt) {
    return softNoise(x * 2.2, y * 0.35, salt) + softNoise(x * 7.0, y * 0.9, salt + 1) - 1.0;
}

double boardTone(std::int64_t board) {
    return latticeNoise(board, 7, 77);
}

double stones(double x, double z, std::uint32_t salt) {
    return 0.5 * softNoise(x * 0.9, z * 0.45, salt) + 0.5 * softNoise(x * 2.1, z * 1.0, salt + 1);
}

double sampled(const cv::Mat1f& picture, double x, double y) {
    const double left = std::floor(x - 0.5);
    const double top = std::floor(y - 0.5);
    const int i = static_cast<int>(left);
    const int j = static_cast<int>(top);
    if (i < 0 || j < 0 || i + 1 >= picture.cols || j + 1 >= picture.rows) {
        const int ci = i < 0 ? 0 : (i >= picture.cols ? picture.cols - 1 : i);
        const int cj = j < 0 ? 0 : (j >= picture.rows ? picture.rows - 1 : j);
        return static_cast<double>(picture(cj, ci));
    }
    const auto tx = static_cast<double>(x - 0.5 - left);
    const auto ty = static_cast<double>(y - 0.5 - top);
    const auto at = [&picture](int row, int column) {
        return static_cast<double>(picture(row, column));
    };
    return (at(j, i) * (1 - tx) + at(j, i + 1) * tx) * (1 - ty) +
           (at(j + 1, i) * (1 - tx) + at(j + 1, i + 1) * tx) * ty;
}

}  // namespace sample

#include "tests/imaging/mark/drawn_sheet.h"

#include <opencv2/imgproc.hpp>

namespace imaging::mark::test {
namespace {

constexpr int kFine = 8;

}  // namespace

cv::Mat render(int width, int height, const std::function<bool(double x, double y)>& shape,
               double blur, double paper, double ink) {
    cv::Mat fine(height * kFine, width * kFine, CV_32F);
    for (int y = 0; y < fine.rows; ++y) {
        auto* row = fine.ptr<float>(y);
        for (int x = 0; x < fine.cols; ++x) {
            // Fine sample i of a pixel stands at (i + 0.5)/8 − 0.5 from its centre.
            const double px = (x + 0.5) / kFine - 0.5;
            const double py = (y + 0.5) / kFine - 0.5;
            row[x] = static_cast<float>(shape(px, py) ? ink : paper);
        }
    }
    cv::GaussianBlur(fine, fine, cv::Size(), blur * kFine, blur * kFine, cv::BORDER_REPLICATE);
    cv::Mat coarse;
    cv::resize(fine, coarse, cv::Size(width, height), 0, 0, cv::INTER_AREA);
    return coarse;
}

raster::GreyImage photographed(const cv::Mat& clean, double noise, std::mt19937& random) {
    std::normal_distribution<float> error(0, static_cast<float>(noise));
    cv::Mat noisy = clean.clone();
    for (int y = 0; y < noisy.rows; ++y) {
        for (int x = 0; x < noisy.cols; ++x) {
            noisy.at<float>(y, x) += noise > 0 ? error(random) : 0;
        }
    }
    cv::Mat eight;
    noisy.convertTo(eight, CV_8U);
    return raster::GreyImage(eight);
}

}  // namespace imaging::mark::test

#include "imaging/raster/grey_image.h"

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <utility>

namespace imaging::raster {

GreyImage::GreyImage(cv::Mat pixels, std::vector<cv::Rect> unreadable)
    : m_pixels(std::move(pixels)), m_depth(m_pixels.depth()), m_unreadable(std::move(unreadable)) {
    CV_Assert(m_pixels.channels() == 1);
    CV_Assert(m_depth == CV_8U || m_depth == CV_16U || m_depth == CV_32F);
}

bool GreyImage::readable(int x, int y) const {
    return holds(x, y) &&
           std::none_of(m_unreadable.begin(), m_unreadable.end(),
                        [x, y](const cv::Rect& area) { return area.contains(cv::Point(x, y)); });
}

GreyImage toGrey(const Raster& raster) {
    if (raster.colour == Colour::Grey) {
        return GreyImage(raster.pixels, raster.unreadable);
    }
    cv::Mat rgb;
    if (raster.colour == Colour::Rgb) {
        raster.pixels.convertTo(rgb, CV_32F);
    } else if (raster.pixels.depth() == CV_16U && raster.colour != Colour::Cmyk) {
        // 16-bit with transparency: laid on white at full depth.
        const bool single = raster.colour == Colour::GreyAlpha;
        const int alphaChannel = single ? 1 : 3;
        rgb.create(raster.pixels.size(), CV_32FC3);
        for (int y = 0; y < rgb.rows; ++y) {
            const auto* in = raster.pixels.ptr<std::uint16_t>(y);
            auto* out = rgb.ptr<float>(y);
            for (int x = 0; x < rgb.cols; ++x) {
                const auto* pixel = in + static_cast<std::ptrdiff_t>(x) * (alphaChannel + 1);
                const float alpha = static_cast<float>(pixel[alphaChannel]) / 65535.0F;
                for (int c = 0; c < 3; ++c) {
                    const auto value = static_cast<float>(pixel[single ? 0 : c]);
                    const float ink = raster.alphaAssociated ? value : value * alpha;
                    out[3 * x + c] = ink + 65535.0F * (1.0F - alpha);
                }
            }
        }
    } else {
        toDisplay8(raster).convertTo(rgb, CV_32F);
    }
    cv::Mat grey;
    cv::cvtColor(rgb, grey, cv::COLOR_RGB2GRAY);
    return GreyImage(grey, raster.unreadable);
}

}  // namespace imaging::raster

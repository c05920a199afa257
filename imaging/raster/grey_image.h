#pragma once

#include "imaging/raster/raster.h"

#include <opencv2/core/mat.hpp>

#include <cstdint>
#include <vector>

namespace imaging::raster {

/// The page as one grey number per pixel, for measuring: stored units (0 … 255 or 0 … 65535), never
/// stretched or smoothed. Grey pages are shared, not copied; colour pages become
/// 0.299 R + 0.587 G + 0.114 B in float (ITU-R BT.601 luma). Copies are cheap and read-only.
class GreyImage {
  public:
    GreyImage() = default;
    /// From a matrix of one channel, CV_8U, CV_16U or CV_32F (asserted).
    explicit GreyImage(cv::Mat pixels, std::vector<cv::Rect> unreadable = {});

    [[nodiscard]] int width() const { return m_pixels.cols; }
    [[nodiscard]] int height() const { return m_pixels.rows; }
    [[nodiscard]] bool holds(int x, int y) const {
        return x >= 0 && y >= 0 && x < m_pixels.cols && y < m_pixels.rows;
    }
    /// Grey number of a pixel. Entry: holds(x, y).
    [[nodiscard]] double at(int x, int y) const {
        switch (m_depth) {
            case CV_8U:
                return m_pixels.ptr<std::uint8_t>(y)[x];
            case CV_16U:
                return m_pixels.ptr<std::uint16_t>(y)[x];
            default:
                return static_cast<double>(m_pixels.ptr<float>(y)[x]);
        }
    }
    /// Whether a pixel is inside the page and could be decoded.
    [[nodiscard]] bool readable(int x, int y) const;
    /// Standard deviation of rounding to whole grey numbers: the least noise there can be.
    [[nodiscard]] double roundingNoise() const { return 0.2887; }

  private:
    cv::Mat m_pixels;
    int m_depth = CV_8U;
    std::vector<cv::Rect> m_unreadable;
};

/// The page for measuring. Transparency is laid on white; CMYK and palettes go by their screen
/// colour.
[[nodiscard]] GreyImage toGrey(const Raster& raster);

}  // namespace imaging::raster

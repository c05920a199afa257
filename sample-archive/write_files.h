#pragma once

#include <opencv2/core.hpp>

#include <filesystem>

namespace sample {

/// What a TIFF says about itself; wrong on purpose where the scenario wants it.
struct TiffTags {
    double dpi = 0;       ///< claimed resolution; 0: no resolution tags
    int orientation = 1;  ///< 1 upright, 6 stored lying on its side (to be turned clockwise)
};

/// Writes an upright picture as a deflated TIFF. Throws std::runtime_error when the disk refuses.
void writeTiff(const std::filesystem::path& path, const cv::Mat3b& upright, const TiffTags& tags);
void writeJpeg(const std::filesystem::path& path, const cv::Mat3b& picture, int quality);
void writePng(const std::filesystem::path& path, const cv::Mat3b& picture);

}  // namespace sample

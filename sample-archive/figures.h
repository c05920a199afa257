#pragma once

#include "sample-archive/sheet.h"

#include <opencv2/core.hpp>

#include <string>

namespace sample {

/// Coverage of a line of drawing-office lettering; a fraction such as `1/2` is stacked about a bar.
[[nodiscard]] cv::Mat1f figureStrip(const std::string& words, double capHeight);

/// A dimension line from a to b: witness lines run out by `offset` square to a–b (positive: to the
/// left of the way from a to b as seen on the sheet), arrows at both ends, the figure in the gap.
void dimensionLine(Sheet& sheet, const cv::Point2d& a, const cv::Point2d& b, double offset,
                   const std::string& figure, double capHeight = 0.085);

}  // namespace sample

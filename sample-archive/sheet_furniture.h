#pragma once

#include "sample-archive/sheet.h"

#include <string>

namespace sample {

/// The six lines of a title block, from owner to number.
struct TitleBlock {
    std::string owner;
    std::string subject;
    std::string title;
    std::string scale;
    std::string drawn;
    std::string number;
};

void drawBorder(Sheet& sheet, double margin);
void drawTitleBlock(Sheet& sheet, const cv::Point2d& from, const cv::Point2d& to,
                    const TitleBlock& block);
/// A divided bar of `feet` feet at 1:`scale`, with a first foot in inches.
void drawScaleBar(Sheet& sheet, const cv::Point2d& from, double scale, int feet);

}  // namespace sample

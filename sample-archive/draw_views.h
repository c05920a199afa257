#pragma once

#include "sample-archive/sheet.h"
#include "sample-archive/truth.h"

#include <opencv2/core.hpp>

#include <vector>

namespace sample {

/// Where one view stands on a sheet, and its scale. In a side view x runs along the car and y up;
/// in an end view x runs across from the centre line; in a plan y runs across.
struct View {
    cv::Point2d origin;     ///< place on the sheet of x = 0, y = 0
    double scale = 24;      ///< inches of the car to the inch
    double stretchX = 1.0;  ///< a careless tracer's error along the view

    [[nodiscard]] cv::Point2d at(double x, double y) const {
        return {origin.x + x / scale * stretchX, origin.y - y / scale};
    }
};

void drawSideView(Sheet& sheet, const View& view, const Railcar& car);
void drawEndView(Sheet& sheet, const View& view, const Railcar& car);
void drawPlan(Sheet& sheet, const View& view, const Railcar& car);

/// Outer outline of a hoop from the right cantrail over the crown to the left one, car inches.
[[nodiscard]] std::vector<cv::Point2d> hoopOutline(const Railcar& car, const Hoop& hoop,
                                                   double inset);

}  // namespace sample

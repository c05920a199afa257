#pragma once

#include <opencv2/core.hpp>

#include <string>

namespace sample {

/// Light values of the enamel name-plate: white ground, blue-black letters and a rule inside the
/// edge. Size in inches times `resolution` pixels per inch; row 0 is the upper edge.
[[nodiscard]] cv::Mat1f plateFace(double length, double height, double resolution);

/// Coverage of the painted letters on the lower panels, over the whole body side.
[[nodiscard]] cv::Mat1f sideLetters(double length, double height, double resolution);

/// Coverage of one line of text, `capHeight` pixels high, on a strip as wide as the text needs.
[[nodiscard]] cv::Mat1f lettered(const std::string& text, double capHeight, int font,
                                 double strokeWidth);

/// Length of a painted word whose capitals are `capHeight` high, in the same unit.
[[nodiscard]] double wordLength(const std::string& text, double capHeight);

}  // namespace sample

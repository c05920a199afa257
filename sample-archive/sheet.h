#pragma once

#include "sample-archive/faults.h"

#include <opencv2/core.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace sample {

/// How a drawn sheet came to be scanned: size as drawn, and what happened to it since.
struct SheetMaking {
    double width = 15;      ///< inches, as drawn
    double height = 11;     ///< inches, as drawn
    double dpi = 400;       ///< of the scanner
    double margin = 0.25;   ///< inches of scanner bed shown around the sheet
    double shrinkX = 1.0;   ///< size now over size as drawn, along
    double shrinkY = 1.0;   ///< the same, across
    double rotation = 0.0;  ///< radians, as it lay on the scanner
};

enum class Turn { None, Upward };

/// A sheet of paper with ink on it. Places are inches on the sheet as drawn, origin at its upper
/// left corner, x right, y down; `pixel` tells where a place lies in the scan.
class Sheet {
  public:
    explicit Sheet(const SheetMaking& making);

    [[nodiscard]] cv::Point2d pixel(const cv::Point2d& place) const;
    [[nodiscard]] const SheetMaking& making() const { return m_making; }

    /// A straight pen stroke with round ends; `width` in inches.
    void line(const cv::Point2d& a, const cv::Point2d& b, double width);
    void polyline(const std::vector<cv::Point2d>& places, double width);
    void dashed(const cv::Point2d& a, const cv::Point2d& b, double width, double dash, double gap);
    void rectangle(const cv::Point2d& a, const cv::Point2d& b, double width);
    void circle(const cv::Point2d& centre, double radius, double width);
    /// A filled triangle, for arrow heads.
    void arrow(const cv::Point2d& tip, const cv::Point2d& direction, double size);
    void fill(const cv::Point2d& a, const cv::Point2d& b);
    /// Text centred on a place; cap height in inches. ` 1/2` after a whole number is set as a
    /// stacked fraction.
    void text(const std::string& words, const cv::Point2d& centre, double capHeight,
              Turn turn = Turn::None);
    /// Width of a text in inches.
    [[nodiscard]] double textWidth(const std::string& words, double capHeight) const;

    /// The scan: aged support, ink, scanner blur.
    [[nodiscard]] cv::Mat3b scanned(const Support& support, double inkStrength,
                                    const cv::Vec3d& inkColour, std::uint64_t seed) const;

  private:
    void stamp(const cv::Mat1f& coverage, const cv::Point2d& centrePixel);

    SheetMaking m_making;
    cv::Mat1f m_ink;
};

}  // namespace sample

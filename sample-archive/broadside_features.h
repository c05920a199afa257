#pragma once

#include "sample-archive/draw_broadside.h"

#include <opencv2/core.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sample {

/// A size that can be taken off the works photograph by its edges.
struct BroadsideFeature {
    enum class Kind { Segment, Circle };

    std::string dimension;  ///< id of the dimension it measures
    Kind kind = Kind::Segment;
    std::vector<cv::Point2d> points;  ///< where the edges truly lie, pixels
    double truth = 0;                 ///< size on the car that was photographed, inches
    double offset = 0;                ///< of the feature's plane toward the camera from the
                                      ///< plate's, as the register states it, inches
};

/// What the register knows about the plate that scales the photograph: the catalogue's 18 in within
/// ± 1/16 in, the hanger's 4 in (standard uncertainty 0.2 in), 40 ft paced (standard uncertainty
/// 2 ft), and the film parallel to the car within half a degree.
struct PlateKnowledge {
    double length = 18.0;
    double halfWidth = 1.0 / 16;
    double standOff = 4.0;
    double uStandOff = 0.2;
    double distance = 480.0;
    double uDistance = 24.0;
    double parallelWithin = 0.5;
};

/// The two ends of the plate, pixels.
[[nodiscard]] std::vector<cv::Point2d> plateEnds(const Broadside& view);

/// All features whose edges are clean enough for a fit, more than twenty of them.
[[nodiscard]] std::vector<BroadsideFeature> broadsideFeatures(const Broadside& view);

}  // namespace sample

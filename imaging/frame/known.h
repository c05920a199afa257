#pragma once

#include "imaging/frame/adjust.h"
#include "imaging/frame/feature.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

/// What is known of a picture, from which a frame is solved.
namespace imaging::frame {

/// A known coordinate in inches: exact, or a number among the inputs.
struct Coordinate {
    double value = 0;
    int input = -1;
    [[nodiscard]] Tracked read(const Reader& reader) const {
        return input < 0 ? constant(value) : reader.input(input);
    }
};

struct KnownPoint {
    Feature feature;
    std::vector<Coordinate> at;  ///< 1, 2 or 3
};

struct KnownSpan {
    Feature feature;
    int length = 0;  ///< among the inputs, inches
};

struct Known {
    std::vector<KnownPoint> points;
    std::vector<KnownSpan> spans;
    std::vector<std::vector<Feature>> parallel;
    std::vector<std::vector<Feature>> square;
    std::vector<std::vector<Feature>> ground;
    std::vector<Feature> vertical;
    std::optional<LensInput> lens;
};

/// A solved frame: its parameters stand after the inputs, from index `inputs.size()` on.
struct Solution {
    Adjustment adjustment;
    std::vector<std::string> names;  ///< of the parameters
    int pointRow = -1;               ///< first condition of the known points; −1 where none
    int rowsOfPoint = 0;             ///< conditions of one known point
    int spanRow = -1;                ///< first condition of the known lengths, one each; likewise
    std::vector<std::string> notes;
};

/// The same number with the parameters replaced by the inputs that gave them.
[[nodiscard]] Tracked onInputs(const Tracked& number, const Inputs& inputs,
                               const Adjustment& adjustment);

/// Middle and greatest extent (px) of the features that carry a frame.
struct Extent {
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    double size = 1;
};
[[nodiscard]] Extent extentOf(const std::vector<Eigen::Vector2d>& points);

/// The features' points as observed, lens distortion taken out.
[[nodiscard]] std::vector<Eigen::Vector2d> pointsOf(const Inputs& inputs, const Known& known);

/// Homogeneous vanishing point of lines, third coordinate ≥ 0, unit length: the vector least far
/// from all of them in the least squares of line-to-point products, coordinates about `extent`.
/// None with fewer than two lines.
[[nodiscard]] std::optional<Eigen::Vector3d> vanishingPoint(const Reader& reader,
                                                            const std::vector<Feature>& lines,
                                                            const Extent& extent);

}  // namespace imaging::frame

#pragma once

#include "evidence-core/record/dimension.h"
#include "evidence-core/record/mark.h"

#include <Eigen/Core>
#include <tl/expected.hpp>

#include <array>
#include <optional>
#include <string>
#include <vector>

/// What a mark, or two, measure on the sheet, in pixels (or radians), before any frame.
namespace evidence::network {

/// Standard uncertainty of a mark that says nothing, px per axis (domain.md, defaults).
inline constexpr double kMarkUDefault = 0.5;

/// A mark's numbers and their covariance: the coordinates x1, y1, x2, y2 … of its points, or of a
/// fitted circle centre x, y and radius, or of a fitted ellipse centre x, y, axes a, b and angle.
struct MarkNumbers {
    Eigen::VectorXd value;
    Eigen::MatrixXd covariance;
    bool byDefault = false;  ///< nobody gave an uncertainty
};

/// `defaultU`: px per axis where the mark says nothing. A covariance of the wrong size counts as
/// none given.
[[nodiscard]] MarkNumbers numbersOf(const record::Mark& mark, double defaultU);

/// A length in pixels, or an angle in radians, with derivatives by each mark's numbers.
struct PixelMeasure {
    double value = 0;
    bool angle = false;
    std::vector<record::MarkId> marks;       ///< one or two
    std::vector<Eigen::RowVectorXd> slopes;  ///< by the numbers of each
};

/// Why a mark cannot give what is asked, in words.
using PixelResult = tl::expected<PixelMeasure, std::string>;

/// One mark: a segment's length, the diameter (or radius, where asked) of a circle or ellipse, the
/// length of a curve, the pitch of a pattern.
[[nodiscard]] PixelResult measured(const record::Mark& mark, record::DimensionQuantity asked);

/// Two marks: the distance of two points (a circle counts as its centre), a point and a line, or
/// two parallel lines; the angle of two lines where an angle is asked.
[[nodiscard]] PixelResult measured(const record::Mark& a, const record::Mark& b,
                                   record::DimensionQuantity asked);

}  // namespace evidence::network

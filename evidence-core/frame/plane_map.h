#pragma once

#include "evidence-core/frame/position.h"

#include <optional>

namespace evidence::frame {

/// Pixels of a sheet to inches of one plane: the frames `plane` (8 parameters) and `stretch` (the
/// same with l = 0). With n = (p − centre)/unit:
///
///     w = 1 + l₁n₁ + l₂n₂        q = n/w        X = A·q + t,   A = [a b; c d]
///
/// l is the plane's vanishing line: w = 0 is its image; A is in inches per `unit`, t in inches.
/// `centre` (px) and `unit` (px) are constants that keep the parameters near 1; `centre` must lie
/// on the near side of the vanishing line. Lengths and angles alone leave the place and the turn of
/// the plane free: then c = 0 and t = 0 are held, and l, a, b, d remain.
/// Source: R. Hartley and A. Zisserman, Multiple View Geometry, 2.3 and 2.7 (from memory).
struct PlaneMap {
    enum Parameter { L1, L2, A, B, C, D, Tx, Ty };
    static constexpr int kParameters = 8;
    Point centre = Point::Zero();
    double unit = 1;
    /// Order: l1, l2, a, b, c, d, tx, ty.
    Eigen::Matrix<double, kParameters, 1> parameters =
        Eigen::Matrix<double, kParameters, 1>::Zero();

    /// The homogeneous 3×3 matrix from pixels (x, y, 1) to inches.
    [[nodiscard]] Eigen::Matrix3d matrix() const;
};

/// Nearest to the vanishing line that a pixel is carried: w as a share of its value at the centre.
inline constexpr double kLeastNearness = 0.02;

/// The place of a pixel on the plane. None where w ≤ kLeastNearness: at, near or beyond the
/// vanishing line, where no place is worth the name.
/// Checked against numerical differences in tests/evidence-core/frame/plane_map_test.cpp.
[[nodiscard]] std::optional<Position<PlaneMap::kParameters>> carried(const PlaneMap& map,
                                                                     const Point& pixel);

}  // namespace evidence::frame

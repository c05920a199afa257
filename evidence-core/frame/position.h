#pragma once

#include "evidence-core/frame/pixel_geometry.h"

#include <Eigen/Core>

namespace evidence::frame {

/// Where a pixel lies on a plane, in inches, with its derivatives by the pixel (2×2, in/px) and by
/// the N parameters of the frame that carried it (2×N, in the order its model names).
template <int N>
struct Position {
    Point at = Point::Zero();
    Eigen::Matrix2d byPixel = Eigen::Matrix2d::Zero();
    Eigen::Matrix<double, 2, N> byModel = Eigen::Matrix<double, 2, N>::Zero();
};

}  // namespace evidence::frame

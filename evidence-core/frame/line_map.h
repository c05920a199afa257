#pragma once

#include "evidence-core/frame/derived.h"
#include "evidence-core/frame/pixel_geometry.h"

#include <optional>

namespace evidence::frame {

/// Pixels along one straight line of a photograph to inches along it: the frame `line`.
///
///     n = (p − origin)·along / unit        X = (a·n + b) / (1 + c·n)
///
/// `origin` (px), `along` (unit vector) and `unit` (px) are constants; 1 + c·n = 0 is the line's
/// vanishing point. Source: cross-ratio of four points, docs/method/frames.md.
struct LineMap {
    static constexpr int kParameters = 3;
    Point origin = Point::Zero();
    Point along = Point::UnitX();
    double unit = 1;
    Eigen::Vector3d parameters = Eigen::Vector3d::Zero();  ///< a, b (inches), c

    /// How far a pixel lies beside the line, px (signed).
    [[nodiscard]] double beside(const Point& pixel) const {
        const Point away = pixel - origin;
        return along.x() * away.y() - along.y() * away.x();
    }
};

/// Place along the line in inches. Jacobian order: a, b, c, px, py. None at or beyond the line's
/// vanishing point (1 + c·n ≤ kLeastNearness of plane_map.h).
/// Checked against numerical differences in tests/evidence-core/frame/line_map_test.cpp.
[[nodiscard]] std::optional<Derived<5>> placeAlong(const LineMap& map, const Point& pixel);

}  // namespace evidence::frame

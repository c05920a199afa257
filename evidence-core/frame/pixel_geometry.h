#pragma once

#include "evidence-core/frame/derived.h"

/// Distances and angles between marks, in pixels (domain.md, "Pixel and unit conventions": origin
/// at the centre of the top-left pixel, x right, y down). Pure functions, no state. All lines are
/// given by two points of theirs and are taken as unbounded. Where a derivative does not exist
/// (points that coincide, a point on the line) it is returned as zero; callers test for such
/// layouts first. Checked against numerical differences in
/// tests/evidence-core/frame/pixel_geometry_test.cpp.
namespace evidence::frame {

using Point = Eigen::Vector2d;

/// |q − p| in px. Jacobian order: px, py, qx, qy.
[[nodiscard]] Derived<4> pointToPoint(const Point& p, const Point& q);

/// Distance in px (never negative) of `p` from the line through `a` and `b`.
/// Jacobian order: px, py, ax, ay, bx, by. Entry: a ≠ b.
[[nodiscard]] Derived<6> pointToLine(const Point& p, const Point& a, const Point& b);

/// Distance in px (never negative) of the lines ab and cd, which are meant to be parallel: measured
/// at the middle of their common run, square to their mean direction (exchange.md). The common run
/// is the overlap of the two projections on the mean direction; without overlap, the gap between
/// them. The order in which a line's two points are given does not matter. Jacobian order: ax, ay,
/// bx, by, cx, cy, dx, dy. Entry: a ≠ b, c ≠ d, lines not square to each other.
[[nodiscard]] Derived<8> lineToLine(const Point& a, const Point& b, const Point& c, const Point& d);

/// Angle in rad, 0 … π, between the directions a→b and c→d: give both lines from their crossing
/// outward; turning one of them round gives the supplement.
/// Jacobian order: ax, ay, bx, by, cx, cy, dx, dy; zero where the directions are equal or opposite
/// (there the angle has no derivative). Entry: a ≠ b, c ≠ d.
[[nodiscard]] Derived<8> angleBetween(const Point& a, const Point& b, const Point& c,
                                      const Point& d);

/// Sine of the angle from the direction a→b to c→d, signed; zero for parallel lines.
/// Jacobian order: ax, ay, bx, by, cx, cy, dx, dy. Entry: a ≠ b, c ≠ d.
[[nodiscard]] Derived<8> sineBetween(const Point& a, const Point& b, const Point& c,
                                     const Point& d);

/// Cosine of the angle between the directions a→b and c→d; zero for lines square to each other.
/// Jacobian order and entry as sineBetween.
[[nodiscard]] Derived<8> cosineBetween(const Point& a, const Point& b, const Point& c,
                                       const Point& d);

}  // namespace evidence::frame

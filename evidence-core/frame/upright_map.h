#pragma once

#include "evidence-core/frame/derived.h"
#include "evidence-core/frame/pixel_geometry.h"

#include <optional>

namespace evidence::frame {

/// Heights above the ground from one photograph: the frame `upright`. In coordinates
/// n = (p − centre)/unit:
///
///  - the horizon, vanishing line of the ground: cos ψ·n₁ + sin ψ·n₂ = δ;
///  - the vertical vanishing point, homogeneous (e + u·e⊥, v), with e a constant unit vector near
///    the direction of the verticals in the picture: v = 0 where they run parallel there;
///  - s, inches: a height h with base b and top t on one vertical is
///    h = s·|b × t| / (|l·b|·|V × t|)  (third coordinates of b and t 1).
///
/// Source: A. Criminisi, I. Reid and A. Zisserman, Single View Metrology, IJCV 40(2), 123–148,
/// 2000, eq. (4) (from memory; checked by a projected scene in upright_map_test.cpp).
struct UprightMap {
    enum Parameter { Psi, Delta, U, V, Scale };
    static constexpr int kParameters = 5;
    Point centre = Point::Zero();
    double unit = 1;
    Point upward = Point::UnitY();  ///< e
    /// Order: ψ (rad), δ, u, v, s (inches).
    Eigen::Matrix<double, kParameters, 1> parameters =
        Eigen::Matrix<double, kParameters, 1>::Zero();
};

/// Height in inches (never negative) of `top` above `base`, which stands on the ground; the top is
/// first moved to the vertical through the base, square to it. Jacobian order: ψ, δ, u, v, s, bx,
/// by, tx, ty. None where the base lies on the horizon (nearer than 1e-3 units).
[[nodiscard]] std::optional<Derived<9>> heightOf(const UprightMap& map, const Point& base,
                                                 const Point& top);

/// Sine of the angle (px-true) between the line pq and the direction from its middle to the
/// vertical vanishing point: zero for the picture of a vertical. Jacobian order: as heightOf, with
/// p, q for base, top.
[[nodiscard]] Derived<9> offVertical(const UprightMap& map, const Point& p, const Point& q);

/// The same for a line of the ground whose vanishing point stands on the horizon at `bearing`
/// (rad): (δ·n̂ , 1)·cos + (t̂, 0)·sin, n̂ = (cos ψ, sin ψ), t̂ = (−sin ψ, cos ψ).
/// Jacobian order: ψ, δ, u, v, s, bearing, px, py, qx, qy.
[[nodiscard]] Derived<10> offGround(const UprightMap& map, double bearing, const Point& p,
                                    const Point& q);

}  // namespace evidence::frame

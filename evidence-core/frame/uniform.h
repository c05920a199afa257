#pragma once

#include "evidence-core/frame/derived.h"
#include "evidence-core/frame/pixel_geometry.h"

namespace evidence::frame {

/// Any pixel length carried through a `uniform` (or `printed`) frame: length = s · pixels, in
/// inches. `inchesPerPixel` s > 0; `pixels` with its N derivatives. Jacobian order: s, then those
/// of `pixels`.
template <int N>
[[nodiscard]] Derived<N + 1> uniformLength(double inchesPerPixel, const Derived<N>& pixels) {
    Derived<N + 1> result;
    result.value = inchesPerPixel * pixels.value;
    result.jacobian(0) = pixels.value;
    result.jacobian.template tail<N>() = inchesPerPixel * pixels.jacobian;
    return result;
}

/// Distance of two marks through a `uniform` frame: d = s·|q − p| in inches.
/// Jacobian 1×5, order s, px, py, qx, qy. Entry: s > 0, p ≠ q.
/// Source: JCGM 100:2008, 5.2.2; docs/method/scales.md.
[[nodiscard]] inline Derived<5> uniformLength(double inchesPerPixel, const Point& p,
                                              const Point& q) {
    return uniformLength<4>(inchesPerPixel, pointToPoint(p, q));
}

/// Relative standard uncertainty that each reference length of a `uniform` frame on a photograph
/// gets where the plane is known to lie parallel to the film only within `angle` rad (domain.md,
/// "Settled details": `parallel_within`): 1 − cos θ.
[[nodiscard]] double parallelWithinRelative(double angle);

}  // namespace evidence::frame

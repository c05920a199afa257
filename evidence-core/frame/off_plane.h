#pragma once

#include "evidence-core/frame/derived.h"

namespace evidence::frame {

/// Factor that turns a length measured through a frame's plane into its true length, for a feature
/// that stands `offset` q nearer to the camera than that plane (+ nearer, − farther), with the
/// camera `distance` D square to the plane: f = (D − q)/D. Units: q and D alike (inches), f pure.
/// Jacobian order: q, D. Entry: D > 0, q < D. Source: docs/method/scales.md (central projection:
/// magnification error q/(D − q)).
[[nodiscard]] Derived<2> offPlaneFactor(double offset, double distance);

}  // namespace evidence::frame

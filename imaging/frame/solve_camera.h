#pragma once

#include "evidence-core/frame/camera_map.h"
#include "imaging/frame/known.h"

namespace imaging::frame {

struct CameraSolution : Solution {
    evidence::frame::CameraMap map;

    /// Carries a pixel to the two coordinates of a known plane; parameters from index `first` on.
    [[nodiscard]] Carrier carrier(const evidence::frame::SpacePlane& plane, int first) const;
    /// Distance of the camera square to the plane.
    [[nodiscard]] Tracked distance(const evidence::frame::SpacePlane& plane, int first) const;
};

/// Solves the frame `camera`: from six or more known points in space, or from two or three groups
/// of parallel lines that are square to each other and known lengths along them.
///
/// With known points the world is theirs. With groups of parallels the axes x, y (and z) run along
/// the groups in their order, each in the direction in which its first mark was drawn; a third axis
/// completes them right-handed; the origin is the first end of the first known length, or fixed by
/// known points where there are any. A known length lies along an axis: of its group, or of the
/// only one that it points at within 5°. The principal point is a prior: two inputs from
/// `principal` on. Start: pose for a grid of focal lengths (OpenCV's SQPnP), or the closed form f²
/// = −(v₁ − pp)·(v₂ − pp); then least squares on the mark pixels. Errors (place "", "/points",
/// "/parallel", "/references"): NoSolution with the reason. Source: B. Caprile and V. Torre, Using
/// vanishing points for camera calibration, IJCV 4, 1990; R. Hartley and A. Zisserman, Multiple
/// View Geometry, ch. 7 and 8 (from memory).
[[nodiscard]] Result<CameraSolution> solveCamera(const Inputs& inputs, const Known& known,
                                                 int principal, double pictureWidth);

}  // namespace imaging::frame

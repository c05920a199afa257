#pragma once

#include "imaging/mark/profile_fit.h"

namespace imaging::mark {

/// Traces a curve along an edge or drawn line through its way points: stations every
/// `kCurveStation` px, each fitted square to the course in a band of pixels of its own, so that
/// their errors are independent. The course is foreseen from the last stations and drawn towards
/// the next way point; where nothing stands out (a smudge, a crossing) up to three stations are
/// bridged. The mark's points become the stations from the foot of the first way point to that of
/// the last; `pointCovariances` are theirs: the fit square to the course, the placing along it at
/// both ends. Errors: BadValue for way points that coincide; NoFit where the trail is lost, naming
/// the place; OutsideSheet. Cost: about 0.1 ms for each station.
[[nodiscard]] Result<FittedMark> traceCurve(const raster::GreyImage& image,
                                            const MarkRequest& request);

inline constexpr double kCurveStation = 6;  ///< px

}  // namespace imaging::mark

#pragma once

#include "imaging/mark/mark.h"

namespace imaging::mark {

/// A point moved onto the crossing of two drawn lines (`LineCentre`) or of two edges (`Corner`):
/// the arms are found on a ring about the placed point, each line is fitted along its arms outside
/// the crossing itself, and the two fits are intersected with their covariance. Errors: NoFit where
/// not exactly two directions are found, or a line does not fit.
[[nodiscard]] Result<FittedMark> fitCrossing(const raster::GreyImage& image,
                                             const MarkRequest& request);

}  // namespace imaging::mark

#pragma once

#include "imaging/frame/solve_lens.h"
#include "imaging/raster/grey_image.h"
#include "imaging/task/task.h"

#include <optional>
#include <vector>

namespace imaging::task {

/// The lens' distortion from the marks that the task's frame names as `straight`: curves as traced,
/// lines of three points or more as placed, lines with a fit traced along their edge or drawn line.
/// Lines that were fitted to the distorted picture are then put right in `marks`: traced, freed of
/// distortion, a straight line fitted through the trace, its ends taken back to the picture.
/// None where nothing is named. Errors: BadValue and NoSolution at /frame/straight.
[[nodiscard]] Result<std::optional<frame::LensSolution>> lensOf(
    const Task& task, const raster::GreyImage& image, std::vector<mark::FittedMark>& marks);

}  // namespace imaging::task

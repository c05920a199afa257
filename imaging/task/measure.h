#pragma once

#include "imaging/raster/header.h"
#include "imaging/refusal.h"
#include "imaging/task/length_text.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace imaging::task {

/// `lostlines measure`: decodes the page of `image` that the task names, fits its marks, solves its
/// frame and answers with lengths and angles, all as exchange.md's *`measure` task* says: JSON text
/// {"frame", "marks", "results"} with 12 significant digits, in the order of the task.
/// What a mark and a result share (a scale, a mark) is propagated jointly: a reference's own length
/// comes back with the uncertainty it was given. Intervals: normal, convolved with the largest
/// rectangular part (half_width, rounded_to, low/high). The answer may carry `notes`.
/// Errors: `place` is a JSON pointer into the task, `help` names the marks by id; those of
/// raster::decodePage keep the file as their place.
[[nodiscard]] Result<std::string> measure(const std::filesystem::path& image,
                                          std::string_view taskJson,
                                          const LengthReader& readLength = readDecimalLength,
                                          const raster::Budget& budget = {});

}  // namespace imaging::task

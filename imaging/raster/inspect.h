#pragma once

#include "imaging/raster/header.h"

#include <filesystem>
#include <optional>
#include <span>
#include <string>

namespace imaging::raster {

/// A pixel of page 1, upright.
struct InspectedPixel {
    int x = 0;
    int y = 0;
};

/// What files are, as the JSON document of exchange.md (`inspect --json`): hash, pages, upright
/// size, depth, every claimed resolution, damage; with `at` the stored and the shown value of a
/// pixel of page 1. A file that is refused is told so in its `refused` (a sentence), with
/// `refused_code`; that is no error of the call. Beyond exchange.md a sheet may hold `pixel_aspect`
/// (width of a pixel over its height, where the file gives a ratio without a unit),
/// `unreadable_columns` (damage on a page whose tag turns it by 90 degrees) and `notes`; a file may
/// hold `taken` (Exif date, as written). Errors: MissingFile; OutsideSheet for `at`, placed at the
/// file's path.
[[nodiscard]] Result<std::string> inspectJson(std::span<const std::filesystem::path> files,
                                              std::optional<InspectedPixel> at = {},
                                              const Budget& budget = {});

/// The same in words, for people.
[[nodiscard]] Result<std::string> inspectText(std::span<const std::filesystem::path> files,
                                              std::optional<InspectedPixel> at = {},
                                              const Budget& budget = {});

}  // namespace imaging::raster

#pragma once

#include "imaging/raster/raster.h"
#include "imaging/raster/tiff_handle.h"

namespace imaging::raster {

/// Reads the strips or tiles of the current directory into `raster.pixels` (stored orientation),
/// joined planes, at 8 or 16 bits. Blocks that cannot be decoded hold mid-grey, are listed in
/// `raster.unreadable` and clear `raster.complete`. Refuses blocks beyond the budget.
[[nodiscard]] std::optional<Refusal> readSamples(TIFF* tiff, const TiffTags& tags,
                                                 const Budget& budget, const std::string& place,
                                                 Raster& raster);

}  // namespace imaging::raster

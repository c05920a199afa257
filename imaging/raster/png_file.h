#pragma once

#include "imaging/raster/raster.h"

namespace imaging::raster {

/// PNG through libpng: size, pHYs and eXIf before the pixels.
[[nodiscard]] Result<void> readPngHeader(const std::filesystem::path& file, FileHeader& header);

/// Stored pixels, not yet upright. A stream that ends early keeps what it gave; the rest is listed.
[[nodiscard]] Result<Raster> decodePng(const std::filesystem::path& file, const SheetHeader& sheet);

}  // namespace imaging::raster

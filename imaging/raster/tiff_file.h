#pragma once

#include "imaging/raster/raster.h"

namespace imaging::raster {

/// TIFF and BigTIFF through libtiff, one header per full-resolution directory: directories marked
/// as reduced-resolution copies are no pages.
[[nodiscard]] Result<void> readTiffHeader(const std::filesystem::path& file, FileHeader& header);

/// Stored pixels, not yet upright. Strips and tiles that cannot be decoded are listed.
[[nodiscard]] Result<Raster> decodeTiff(const std::filesystem::path& file, const SheetHeader& sheet,
                                        const Budget& budget);

}  // namespace imaging::raster

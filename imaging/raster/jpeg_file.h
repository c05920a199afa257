#pragma once

#include "imaging/raster/raster.h"

namespace imaging::raster {

/// JPEG through libjpeg; Exif by exiv2; JFIF density and the Photoshop resolution resource by
/// marker.
[[nodiscard]] Result<void> readJpegHeader(const std::filesystem::path& file, FileHeader& header);

/// Stored pixels, not yet upright. A stream that ends early keeps what it gave; the rest is listed.
[[nodiscard]] Result<Raster> decodeJpeg(const std::filesystem::path& file);

}  // namespace imaging::raster

#pragma once

#include "imaging/raster/header.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace imaging::raster {

/// What an Exif block (a TIFF structure, without "Exif\0\0") says about geometry and time.
struct ExifFacts {
    std::optional<int> orientation;
    std::optional<ResolutionClaim> resolution;  ///< stored axes
    std::optional<double> pixelAspect;          ///< where the unit is "none"
    bool unitAssumed = false;                   ///< no unit tag: the format's default, inch
    std::optional<std::string> taken;           ///< DateTimeOriginal as written
};

/// Reads a block; hostile or broken bytes give what could be read, never an error.
[[nodiscard]] ExifFacts readExif(std::span<const std::uint8_t> block);

/// Moves what an Exif block says into a page's header (stored axes).
void applyExif(const ExifFacts& exif, SheetHeader& sheet);

}  // namespace imaging::raster

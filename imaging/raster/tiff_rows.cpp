#include "imaging/raster/tiff_rows.h"

#include <fmt/format.h>
#include <opencv2/core.hpp>

#include <algorithm>
#include <array>
#include <cstring>

namespace imaging::raster {
namespace {

/// The grid of blocks (strips are blocks as wide as the picture).
struct Grid {
    bool tiled = false;
    std::uint32_t width = 0;   ///< of a block, px
    std::uint32_t height = 0;  ///< of a block, px
    std::uint32_t across = 1;
    std::uint32_t down = 1;
    std::uint64_t bytes = 0;     ///< of a decoded block
    std::uint64_t rowBytes = 0;  ///< of a decoded row in a block
};

Grid gridOf(TIFF* tiff, const TiffTags& tags) {
    Grid grid;
    grid.tiled = TIFFIsTiled(tiff) != 0;
    if (grid.tiled) {
        TIFFGetField(tiff, TIFFTAG_TILEWIDTH, &grid.width);
        TIFFGetField(tiff, TIFFTAG_TILELENGTH, &grid.height);
        grid.bytes = TIFFTileSize64(tiff);
        grid.rowBytes = TIFFTileRowSize64(tiff);
    } else {
        std::uint32_t rows = tags.height;
        TIFFGetFieldDefaulted(tiff, TIFFTAG_ROWSPERSTRIP, &rows);
        grid.width = tags.width;
        grid.height = std::min(rows, tags.height);
        grid.bytes = TIFFStripSize64(tiff);
        grid.rowBytes = TIFFScanlineSize64(tiff);
    }
    if (grid.width == 0 || grid.height == 0) {
        return {};
    }
    grid.across = (tags.width - 1) / grid.width + 1;
    grid.down = (tags.height - 1) / grid.height + 1;
    return grid;
}

/// Spreads 1-, 2- or 4-bit samples over the full 8-bit range.
void unpack(const std::uint8_t* in, unsigned bits, int count, std::uint8_t* out) {
    const unsigned perByte = 8 / bits;
    const unsigned mask = (1U << bits) - 1;
    const unsigned spread = 255 / mask;
    for (int i = 0; i < count; ++i) {
        const auto at = static_cast<unsigned>(i);
        const unsigned shift = 8 - bits * (at % perByte + 1);
        out[i] = static_cast<std::uint8_t>(((in[at / perByte] >> shift) & mask) * spread);
    }
}

/// Copies one decoded row of a block to its place: all channels, or one plane of them.
void place(const std::uint8_t* in, const TiffTags& tags, int count, int channels, int plane,
           std::uint8_t* out) {
    if (tags.bits < 8) {
        unpack(in, tags.bits, count, out);
        return;
    }
    const std::size_t size = tags.bits / 8U;
    if (plane < 0 || channels == 1) {
        std::memcpy(out, in,
                    static_cast<std::size_t>(count) * size * static_cast<std::size_t>(channels));
        return;
    }
    for (int i = 0; i < count; ++i) {
        std::memcpy(out + (static_cast<std::size_t>(i) * static_cast<std::size_t>(channels) +
                           static_cast<std::size_t>(plane)) *
                              size,
                    in + static_cast<std::size_t>(i) * size, size);
    }
}

/// Adjoining damaged blocks of one column of blocks are told as one area.
void addUnreadable(std::vector<cv::Rect>& areas, const cv::Rect& area) {
    for (cv::Rect& known : areas) {
        if (known == area) {
            return;
        }
        if (known.x == area.x && known.width == area.width && known.y + known.height == area.y) {
            known.height += area.height;
            return;
        }
    }
    areas.push_back(area);
}

}  // namespace

std::optional<Refusal> readSamples(TIFF* tiff, const TiffTags& tags, const Budget& budget,
                                   const std::string& file, Raster& raster) {
    if (tags.photometric == PHOTOMETRIC_YCBCR) {
        TIFFSetField(tiff, TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
    }
    const Grid grid = gridOf(tiff, tags);
    if (grid.bytes == 0 || grid.rowBytes == 0) {
        return Refusal{Code::Unreadable, file, "the TIFF's strips or tiles have no size"};
    }
    if (grid.bytes > budget.bytes) {
        return Refusal{Code::TooLarge, file,
                       fmt::format("one strip or tile alone takes {:.4g} GB",
                                   static_cast<double>(grid.bytes) / 1e9)};
    }
    const int channels = tags.samples;
    const bool separate = tags.planar == PLANARCONFIG_SEPARATE && channels > 1;
    const bool wide = tags.bits == 16;
    const auto grey = cv::Scalar::all(wide ? 32768 : 128);
    raster.pixels = cv::Mat(static_cast<int>(tags.height), static_cast<int>(tags.width),
                            CV_MAKETYPE(wide ? CV_16U : CV_8U, channels), grey);
    std::vector<std::uint8_t> block(grid.bytes);
    const int planes = separate ? channels : 1;
    std::size_t bad = 0;
    for (int plane = 0; plane < planes; ++plane) {
        for (std::uint32_t row = 0; row < grid.down; ++row) {
            for (std::uint32_t column = 0; column < grid.across; ++column) {
                const std::uint32_t x0 = column * grid.width;
                const std::uint32_t y0 = row * grid.height;
                const cv::Rect area(static_cast<int>(x0), static_cast<int>(y0),
                                    static_cast<int>(std::min(grid.width, tags.width - x0)),
                                    static_cast<int>(std::min(grid.height, tags.height - y0)));
                const auto sample = static_cast<std::uint16_t>(plane);
                const auto size = static_cast<tmsize_t>(grid.bytes);
                const tmsize_t got =
                    grid.tiled ? TIFFReadEncodedTile(tiff, TIFFComputeTile(tiff, x0, y0, 0, sample),
                                                     block.data(), size)
                               : TIFFReadEncodedStrip(tiff, TIFFComputeStrip(tiff, y0, sample),
                                                      block.data(), size);
                const auto needed = static_cast<tmsize_t>(grid.rowBytes) * area.height;
                if (got < 0 || (!grid.tiled && got < needed)) {
                    ++bad;
                    raster.complete = false;
                    raster.pixels(area).setTo(grey);
                    addUnreadable(raster.unreadable, area);
                    continue;
                }
                for (int y = 0; y < area.height; ++y) {
                    place(block.data() + static_cast<std::uint64_t>(y) * grid.rowBytes, tags,
                          area.width, channels, separate ? plane : -1,
                          raster.pixels.ptr<std::uint8_t>(area.y + y) +
                              static_cast<std::size_t>(area.x) * raster.pixels.elemSize());
                }
            }
        }
    }
    if (bad > 0) {
        raster.notes.push_back(fmt::format("{} strip(s) or tile(s) could not be decoded", bad));
    }
    if (bad == std::size_t{grid.across} * grid.down * static_cast<std::size_t>(planes)) {
        return Refusal{Code::Unreadable, file,
                       "no strip or tile of the page can be decoded; look for another copy"};
    }
    return std::nullopt;
}

}  // namespace imaging::raster

#pragma once

#include "imaging/refusal.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// What a picture file says about itself, found out without decoding a pixel.
namespace imaging::raster {

/// A resolution that some part of the file claims: pixels per `per` along the upright axes. Always
/// a claim with its source, never a default (robustness rule R4).
struct ResolutionClaim {
    double x = 0;
    double y = 0;
    std::string per = "in";  ///< unit of the file's own statement: "in", "cm" or "m"
    std::string claimedBy;   ///< "EXIF", "JFIF", "TIFF", "pHYs", "Photoshop resource 0x03ED"
};

/// Pixels per inch of a claim, upright x and y.
struct PerInch {
    double x = 0;
    double y = 0;
};
[[nodiscard]] PerInch perInch(const ResolutionClaim& claim);

/// One page. Width, height and resolutions are *upright*: the file's orientation tag is applied.
struct SheetHeader {
    int page = 1;
    int width = 0;        ///< px, upright
    int height = 0;       ///< px, upright
    int orientation = 1;  ///< the tag, 1 … 8; what is absent or out of range counts as 1
    int bits = 8;         ///< stored bits per sample
    int channels = 1;     ///< stored samples per pixel
    std::vector<ResolutionClaim> resolution;
    /// Width of a pixel over its height (upright) where the file states the ratio without a unit.
    std::optional<double> pixelAspect;
    std::uint64_t decodedBytes = 0;  ///< memory that its pixels need
    std::vector<std::string> notes;
    std::optional<Refusal> refused;  ///< why this page cannot be decoded, where the header tells
};

struct FileHeader {
    std::string mediaType;               ///< by content
    std::optional<std::string> namedAs;  ///< media type of the file's name where it says another
    std::uint64_t bytes = 0;
    std::optional<std::string> taken;  ///< Exif date and time of the exposure, as written
    std::vector<SheetHeader> sheets;
    std::vector<std::string> notes;
};

/// Memory that one decoded page may take. Checked before anything is allocated (rule R5).
struct Budget {
    std::uint64_t bytes = std::uint64_t{4} << 30U;
};

/// Reads the header of a TIFF, JPEG or PNG file. Other kinds: UnsupportedFormat, naming the kind
/// (PDF pages are rastered by app/paper); no picture at all: NotAPicture; broken: Unreadable.
[[nodiscard]] Result<FileHeader> readHeader(const std::filesystem::path& file);

/// Refusal that names megapixels and gigabytes, where a page does not fit the budget.
[[nodiscard]] std::optional<Refusal> overBudget(const SheetHeader& sheet, const Budget& budget,
                                                const std::string& place);

/// Physical size of the sheet in inches where all claims of resolution agree within 0.2 %.
struct SheetSize {
    double width = 0;
    double height = 0;
};
[[nodiscard]] std::optional<SheetSize> claimedSize(const SheetHeader& sheet);

/// Turns a page's stored size, claims and aspect upright and adds the notes that its tags deserve.
/// For the readers of the single formats; `sheet` holds stored columns and rows on entry.
void turnUpright(SheetHeader& sheet);

}  // namespace imaging::raster

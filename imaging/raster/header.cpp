#include "imaging/raster/header.h"

#include "imaging/raster/jpeg_file.h"
#include "imaging/raster/media_type.h"
#include "imaging/raster/png_file.h"
#include "imaging/raster/tiff_file.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace imaging::raster {
namespace {

constexpr double kClaimsAgree = 0.002;
constexpr double kPlausibleLow = 20;
constexpr double kPlausibleHigh = 20000;

std::string memoryWords(std::uint64_t bytes) {
    const auto size = static_cast<double>(bytes);
    return size >= 1e12 ? fmt::format("{:.4g} TB", size / 1e12)
                        : fmt::format("{:.4g} GB", size / 1e9);
}

bool turnsAxes(int orientation) {
    return orientation >= 5 && orientation <= 8;
}

std::string turnedBy(int orientation) {
    switch (orientation) {
        case 2:
            return "mirrored left to right";
        case 3:
            return "turned by 180 degrees";
        case 4:
            return "mirrored top to bottom";
        case 5:
            return "mirrored along its main diagonal";
        case 6:
            return "turned by 90 degrees clockwise";
        case 7:
            return "mirrored along its other diagonal";
        case 8:
            return "turned by 90 degrees anticlockwise";
        default:
            return "as stored";
    }
}

/// The claims that can be used at all; odd ones stay out of `resolution` and are told in a note.
void sortClaims(SheetHeader& sheet) {
    std::vector<ResolutionClaim> kept;
    for (const ResolutionClaim& claim : sheet.resolution) {
        if (!(std::isfinite(claim.x) && std::isfinite(claim.y) && claim.x > 0 && claim.y > 0)) {
            sheet.notes.push_back(
                fmt::format("the resolution given by {} is no number above zero and is left out",
                            claim.claimedBy));
            continue;
        }
        const PerInch dpi = perInch(claim);
        if (dpi.x < kPlausibleLow || dpi.x > kPlausibleHigh || dpi.y < kPlausibleLow ||
            dpi.y > kPlausibleHigh) {
            sheet.notes.push_back(
                fmt::format("the resolution given by {} ({:.6g} x {:.6g} per inch) is doubtful",
                            claim.claimedBy, dpi.x, dpi.y));
        } else if (std::abs(dpi.x - 72) < 0.01 || std::abs(dpi.x - 96) < 0.01) {
            sheet.notes.push_back(
                fmt::format("{:.6g} per inch ({}) is probably a program's default, not a scan's",
                            dpi.x, claim.claimedBy));
        }
        kept.push_back(claim);
    }
    sheet.resolution = std::move(kept);
}

}  // namespace

PerInch perInch(const ResolutionClaim& claim) {
    double factor = 1;
    if (claim.per == "cm") {
        factor = 2.54;
    } else if (claim.per == "m") {
        factor = 0.0254;
    }
    return {claim.x * factor, claim.y * factor};
}

void turnUpright(SheetHeader& sheet) {
    if (sheet.orientation < 1 || sheet.orientation > 8) {
        sheet.notes.push_back(
            fmt::format("orientation {} does not exist; taken as 1", sheet.orientation));
        sheet.orientation = 1;
    }
    sortClaims(sheet);
    if (turnsAxes(sheet.orientation)) {
        std::swap(sheet.width, sheet.height);
        for (ResolutionClaim& claim : sheet.resolution) {
            std::swap(claim.x, claim.y);
        }
        if (sheet.pixelAspect) {
            sheet.pixelAspect = 1 / *sheet.pixelAspect;
        }
    }
    if (sheet.orientation != 1) {
        sheet.notes.push_back(fmt::format("{} by its orientation tag {}",
                                          turnedBy(sheet.orientation), sheet.orientation));
    }
    if (sheet.resolution.empty()) {
        sheet.notes.emplace_back(sheet.pixelAspect
                                     ? "no resolution in the file, only a ratio of its axes"
                                     : "no resolution in the file");
    } else if (sheet.resolution.size() > 1 && !claimedSize(sheet)) {
        sheet.notes.emplace_back(
            "the file claims several different resolutions; choose one, or use a known length");
    }
}

std::optional<SheetSize> claimedSize(const SheetHeader& sheet) {
    if (sheet.resolution.empty()) {
        return std::nullopt;
    }
    const PerInch first = perInch(sheet.resolution.front());
    for (const ResolutionClaim& claim : sheet.resolution) {
        const PerInch other = perInch(claim);
        if (std::abs(other.x / first.x - 1) > kClaimsAgree ||
            std::abs(other.y / first.y - 1) > kClaimsAgree) {
            return std::nullopt;
        }
    }
    return SheetSize{sheet.width / first.x, sheet.height / first.y};
}

std::optional<Refusal> overBudget(const SheetHeader& sheet, const Budget& budget,
                                  const std::string& place) {
    if (sheet.decodedBytes <= budget.bytes) {
        return std::nullopt;
    }
    const double megapixels = static_cast<double>(sheet.width) * sheet.height / 1e6;
    return Refusal{
        Code::TooLarge, place,
        fmt::format("page {} claims {} x {} pixels: {:.0f} megapixels, {}, more than the "
                    "{:.4g} GB allowed; use a smaller scan or a part of it",
                    sheet.page, sheet.width, sheet.height, megapixels,
                    memoryWords(sheet.decodedBytes), static_cast<double>(budget.bytes) / 1e9)};
}

Result<FileHeader> readHeader(const std::filesystem::path& file) {
    auto kind = recognise(file);
    if (!kind) {
        return tl::unexpected(kind.error());
    }
    FileHeader header;
    header.mediaType = kind->mediaType;
    header.namedAs = kind->namedAs;
    header.bytes = kind->bytes;
    if (kind->namedAs) {
        header.notes.push_back(fmt::format("{} named as {}", kind->mediaType, *kind->namedAs));
    }
    if (auto unreadable = notReadHere(*kind, file.string())) {
        return tl::unexpected(*std::move(unreadable));
    }
    Result<void> read;
    if (kind->mediaType == "image/jpeg") {
        read = readJpegHeader(file, header);
    } else if (kind->mediaType == "image/png") {
        read = readPngHeader(file, header);
    } else {
        read = readTiffHeader(file, header);
    }
    if (!read) {
        return tl::unexpected(read.error());
    }
    return header;
}

}  // namespace imaging::raster

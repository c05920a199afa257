#include "imaging/raster/jpeg_file.h"

#include "imaging/raster/exif_block.h"
#include "imaging/raster/file_bytes.h"

#include <fmt/format.h>
#include <jpeglib.h>

#include <csetjmp>
#include <cstdio>
#include <cstring>
#include <span>
#include <string_view>

namespace imaging::raster {
namespace {

using namespace std::string_view_literals;
using Bytes = std::vector<std::uint8_t>;

/// Our part of libjpeg's error manager. Everything a jump could skip lives outside the jumping
/// functions, which hold trivial locals only.
struct Faults {
    jpeg_error_mgr manager{};
    std::jmp_buf escape{};
    char message[JMSG_LENGTH_MAX] = {};
    /// Row of blocks in which the stream first went wrong; −1: not yet.
    long firstBadBlockRow = -1;
};

Faults* faultsOf(j_common_ptr info) {
    return static_cast<Faults*>(info->client_data);
}

extern "C" {
void onFatal(j_common_ptr info) {
    Faults* faults = faultsOf(info);
    (*info->err->format_message)(info, faults->message);
    std::longjmp(faults->escape, 1);
}

void onMessage(j_common_ptr info, int level) {
    if (level >= 0) {
        return;
    }
    Faults* faults = faultsOf(info);
    if (faults->firstBadBlockRow < 0 && info->is_decompressor) {
        const auto* decoder = reinterpret_cast<j_decompress_ptr>(info);
        (*info->err->format_message)(info, faults->message);
        faults->firstBadBlockRow = static_cast<long>(decoder->input_iMCU_row);
    }
}
}

/// Owns the decoder, so that it is destroyed whichever way the work ends.
struct Decoder {
    jpeg_decompress_struct info{};
    Faults faults;
    Decoder() {
        info.err = jpeg_std_error(&faults.manager);
        faults.manager.error_exit = onFatal;
        faults.manager.emit_message = onMessage;
        info.client_data = &faults;
    }
    Decoder(const Decoder&) = delete;
    Decoder& operator=(const Decoder&) = delete;
    ~Decoder() { jpeg_destroy_decompress(&info); }
};

bool open(Decoder& decoder, const Bytes& bytes) {
    if (setjmp(decoder.faults.escape) != 0) {
        return false;
    }
    jpeg_create_decompress(&decoder.info);
    decoder.info.client_data = &decoder.faults;
    jpeg_mem_src(&decoder.info, bytes.data(), static_cast<unsigned long>(bytes.size()));
    for (const int marker : {JPEG_APP0 + 1, JPEG_APP0 + 2, JPEG_APP0 + 13}) {
        jpeg_save_markers(&decoder.info, marker, 0xFFFF);
    }
    return jpeg_read_header(&decoder.info, TRUE) == JPEG_HEADER_OK;
}

/// Decodes into rows given by the caller; returns how many rows came before a fatal fault.
int decodeRows(Decoder& decoder, JSAMPROW* rows) {
    if (setjmp(decoder.faults.escape) != 0) {
        return static_cast<int>(decoder.info.output_scanline);
    }
    jpeg_start_decompress(&decoder.info);
    while (decoder.info.output_scanline < decoder.info.output_height) {
        jpeg_read_scanlines(&decoder.info, rows + decoder.info.output_scanline, 1);
    }
    return static_cast<int>(decoder.info.output_scanline);
}

std::span<const std::uint8_t> payload(jpeg_saved_marker_ptr marker, std::string_view prefix) {
    if (marker->data_length < prefix.size() ||
        std::memcmp(marker->data, prefix.data(), prefix.size()) != 0) {
        return {};
    }
    return {marker->data + prefix.size(), marker->data_length - prefix.size()};
}

std::uint32_t bigEndian(std::span<const std::uint8_t> bytes, std::size_t at, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        value = (value << 8U) | bytes[at + i];
    }
    return value;
}

/// Resolution resource 0x03ED: fixed 16.16 pixels per inch for both axes at offsets 0 and 8.
std::optional<ResolutionClaim> imageResource(std::span<const std::uint8_t> block) {
    std::size_t at = 0;
    while (at + 12 <= block.size() && std::memcmp(block.data() + at, "8BIM", 4) == 0) {
        const std::uint32_t id = bigEndian(block, at + 4, 2);
        const std::size_t name = (std::size_t{block[at + 6]} + 2) & ~std::size_t{1};
        const std::size_t sizeAt = at + 6 + name;
        if (sizeAt + 4 > block.size()) {
            return std::nullopt;
        }
        const std::size_t size = bigEndian(block, sizeAt, 4);
        const std::size_t data = sizeAt + 4;
        if (size > block.size() - data) {
            return std::nullopt;
        }
        if (id == 0x03ED && size >= 16) {
            return ResolutionClaim{bigEndian(block, data, 4) / 65536.0,
                                   bigEndian(block, data + 8, 4) / 65536.0, "in",
                                   "Photoshop resource 0x03ED"};
        }
        at = data + ((size + 1) & ~std::size_t{1});
    }
    return std::nullopt;
}

/// The orientation an XMP packet repeats, where it does: only to tell a disagreement.
std::optional<int> xmpOrientation(std::string_view packet) {
    for (const std::string_view key : {"tiff:Orientation=\""sv, "<tiff:Orientation>"sv}) {
        const std::size_t at = packet.find(key);
        if (at != std::string_view::npos && at + key.size() < packet.size()) {
            const char digit = packet[at + key.size()];
            if (digit >= '1' && digit <= '8') {
                return digit - '0';
            }
        }
    }
    return std::nullopt;
}

void readJfif(const jpeg_decompress_struct& info, SheetHeader& sheet) {
    if (!info.saw_JFIF_marker) {
        return;
    }
    if (info.density_unit == 0) {
        if (info.X_density > 0 && info.Y_density > 0 && info.X_density != info.Y_density) {
            sheet.pixelAspect = static_cast<double>(info.Y_density) / info.X_density;
        }
        return;
    }
    sheet.resolution.push_back({static_cast<double>(info.X_density),
                                static_cast<double>(info.Y_density),
                                info.density_unit == 2 ? "cm" : "in", "JFIF"});
}

void readMarkers(const jpeg_decompress_struct& info, SheetHeader& sheet, FileHeader& header) {
    std::optional<int> repeated;
    std::optional<ResolutionClaim> resource;
    bool exifSeen = false;
    for (auto* marker = info.marker_list; marker != nullptr; marker = marker->next) {
        const int app = marker->marker - JPEG_APP0;
        if (app == 1 && !exifSeen) {
            if (const auto exif = payload(marker, "Exif\0\0"sv); !exif.empty()) {
                exifSeen = true;
                const ExifFacts facts = readExif(exif);
                applyExif(facts, sheet);
                header.taken = facts.taken;
                continue;
            }
            if (const auto xmp = payload(marker, "http://ns.adobe.com/xap/1.0/\0"sv);
                !xmp.empty()) {
                repeated = xmpOrientation({reinterpret_cast<const char*>(xmp.data()), xmp.size()});
            }
        } else if (app == 2 && !payload(marker, "ICC_PROFILE\0"sv).empty()) {
            sheet.notes.emplace_back("carries an ICC profile, which is not applied");
        } else if (app == 13 && !resource) {
            resource = imageResource(payload(marker, "Photoshop 3.0\0"sv));
        }
    }
    if (resource) {
        sheet.resolution.push_back(*resource);
    }
    if (repeated && *repeated != sheet.orientation) {
        sheet.notes.push_back(fmt::format("XMP says orientation {}, EXIF {}; EXIF is used",
                                          *repeated, sheet.orientation));
    }
}

Colour colourOf(const jpeg_decompress_struct& info) {
    switch (info.num_components) {
        case 1:
            return Colour::Grey;
        case 4:
            return Colour::Cmyk;
        default:
            return Colour::Rgb;
    }
}

}  // namespace

Result<void> readJpegHeader(const std::filesystem::path& file, FileHeader& header) {
    const Bytes bytes = fileBytes(file);
    Decoder decoder;
    if (!open(decoder, bytes)) {
        return refuse(Code::Unreadable, file.string(),
                      fmt::format("the JPEG header is broken ({}); look for another copy",
                                  decoder.faults.message));
    }
    const jpeg_decompress_struct& info = decoder.info;
    SheetHeader sheet;
    sheet.width = static_cast<int>(info.image_width);
    sheet.height = static_cast<int>(info.image_height);
    sheet.bits = info.data_precision;
    sheet.channels = info.num_components;
    sheet.decodedBytes = std::uint64_t{info.image_width} * info.image_height *
                         static_cast<std::uint64_t>(info.num_components);
    readJfif(info, sheet);
    readMarkers(info, sheet, header);
    if (colourOf(info) == Colour::Cmyk) {
        sheet.notes.emplace_back("CMYK, shown in approximate colour");
    }
    turnUpright(sheet);
    header.sheets.push_back(std::move(sheet));
    return {};
}

Result<Raster> decodeJpeg(const std::filesystem::path& file) {
    const Bytes bytes = fileBytes(file);
    Decoder decoder;
    if (!open(decoder, bytes)) {
        return refuse(Code::Unreadable, file.string(),
                      fmt::format("the JPEG header is broken ({})", decoder.faults.message));
    }
    jpeg_decompress_struct& info = decoder.info;
    Raster raster;
    raster.colour = colourOf(info);
    raster.cmykInverted = info.saw_Adobe_marker != 0;
    info.out_color_space = raster.colour == Colour::Grey   ? JCS_GRAYSCALE
                           : raster.colour == Colour::Cmyk ? JCS_CMYK
                                                           : JCS_RGB;
    info.dct_method = JDCT_ISLOW;
    const int width = static_cast<int>(info.image_width);
    const int height = static_cast<int>(info.image_height);
    const int channels = raster.colour == Colour::Grey ? 1 : raster.colour == Colour::Cmyk ? 4 : 3;
    raster.pixels = cv::Mat(height, width, CV_8UC(channels), cv::Scalar::all(128));
    std::vector<JSAMPROW> rows(static_cast<std::size_t>(height));
    for (int y = 0; y < height; ++y) {
        rows[static_cast<std::size_t>(y)] = raster.pixels.ptr<std::uint8_t>(y);
    }
    int good = decodeRows(decoder, rows.data());
    if (decoder.faults.firstBadBlockRow >= 0) {
        good = std::min(good, static_cast<int>(decoder.faults.firstBadBlockRow *
                                               info.max_v_samp_factor * DCTSIZE));
    }
    raster.complete = good == height && decoder.faults.firstBadBlockRow < 0;
    if (raster.complete) {
        return raster;
    }
    raster.notes.push_back(
        fmt::format("incomplete: the JPEG stream is damaged ({})", decoder.faults.message));
    // A progressive stream fills every row coarsely; no row of it can be told good from bad.
    if (info.progressive_mode != 0) {
        raster.notes.emplace_back("progressive: the whole picture is coarser than it was");
        if (good == 0 && decoder.faults.firstBadBlockRow < 0) {
            raster.unreadable.emplace_back(0, 0, width, height);
        }
        return raster;
    }
    if (good < height) {
        raster.pixels.rowRange(good, height).setTo(cv::Scalar::all(128));
        raster.unreadable.emplace_back(0, good, width, height - good);
        raster.notes.push_back(fmt::format("about {} % decoded", 100L * good / height));
    }
    return raster;
}

}  // namespace imaging::raster

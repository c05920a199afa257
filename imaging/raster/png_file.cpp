#include "imaging/raster/png_file.h"

#include "imaging/raster/exif_block.h"

#include <fmt/format.h>
#include <png.h>

#include <csetjmp>
#include <cstdio>
#include <cstring>
#include <memory>

namespace imaging::raster {
namespace {

struct Faults {
    std::jmp_buf escape{};
    char message[200] = {};
};

extern "C" {
void onError(png_structp png, png_const_charp text) {
    auto* faults = static_cast<Faults*>(png_get_error_ptr(png));
    std::snprintf(faults->message, sizeof faults->message, "%s", text);
    std::longjmp(faults->escape, 1);
}
void onWarning(png_structp /*png*/, png_const_charp /*text*/) {}
}

/// The file and libpng's two structures, freed whichever way the work ends.
struct Reader {
    std::FILE* file = nullptr;
    Faults faults;
    png_structp png = nullptr;
    png_infop info = nullptr;
    explicit Reader(const std::filesystem::path& path) : file(std::fopen(path.c_str(), "rb")) {
        png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &faults, onError, onWarning);
        info = png_create_info_struct(png);
    }
    Reader(const Reader&) = delete;
    Reader& operator=(const Reader&) = delete;
    ~Reader() {
        png_destroy_read_struct(&png, &info, nullptr);
        if (file != nullptr) {
            std::fclose(file);
        }
    }
};

bool readInfo(Reader& reader) {
    if (setjmp(reader.faults.escape) != 0) {
        return false;
    }
    png_init_io(reader.png, reader.file);
    // The reader's own limit on width and height is lifted: the budget decides, with its own words.
    png_set_user_limits(reader.png, 0x7fffffff, 0x7fffffff);
    png_read_info(reader.png, reader.info);
    return true;
}

/// Reads all passes; `progress` counts the rows of the last pass that are whole.
bool readRows(Reader& reader, png_bytep* rows, int height, volatile int& progress) {
    if (setjmp(reader.faults.escape) != 0) {
        return false;
    }
    const int bits = png_get_bit_depth(reader.png, reader.info);
    const int type = png_get_color_type(reader.png, reader.info);
    if (bits == 16) {
        png_set_swap(reader.png);
    }
    if (type == PNG_COLOR_TYPE_PALETTE) {
        png_set_packing(reader.png);
    } else if (type == PNG_COLOR_TYPE_GRAY && bits < 8) {
        png_set_expand_gray_1_2_4_to_8(reader.png);
    }
    const int passes = png_set_interlace_handling(reader.png);
    png_read_update_info(reader.png, reader.info);
    for (int pass = 0; pass < passes; ++pass) {
        for (int y = 0; y < height; ++y) {
            png_read_row(reader.png, rows[y], nullptr);
            if (pass == passes - 1) {
                progress = y + 1;
            }
        }
    }
    return true;
}

void readTags(Reader& reader, SheetHeader& sheet, FileHeader& header) {
    png_uint_32 x = 0;
    png_uint_32 y = 0;
    int unit = PNG_RESOLUTION_UNKNOWN;
    if (png_get_pHYs(reader.png, reader.info, &x, &y, &unit) != 0) {
        if (unit == PNG_RESOLUTION_METER) {
            sheet.resolution.push_back(
                {static_cast<double>(x), static_cast<double>(y), "m", "pHYs"});
        } else if (x > 0 && y > 0 && x != y) {
            sheet.pixelAspect = static_cast<double>(y) / x;
        }
    }
    png_uint_32 length = 0;
    png_bytep block = nullptr;
    if (png_get_eXIf_1(reader.png, reader.info, &length, &block) != 0) {
        const ExifFacts facts = readExif({block, length});
        applyExif(facts, sheet);
        header.taken = facts.taken;
    }
    if (png_get_valid(reader.png, reader.info, PNG_INFO_iCCP) != 0) {
        sheet.notes.emplace_back("carries an ICC profile, which is not applied");
    }
}

void readPalette(Reader& reader, Raster& raster) {
    png_colorp colours = nullptr;
    int count = 0;
    png_get_PLTE(reader.png, reader.info, &colours, &count);
    png_bytep alpha = nullptr;
    int alphas = 0;
    png_get_tRNS(reader.png, reader.info, &alpha, &alphas, nullptr);
    for (int i = 0; i < count; ++i) {
        raster.palette.push_back({colours[i].red, colours[i].green, colours[i].blue,
                                  i < alphas ? alpha[i] : std::uint8_t{255}});
    }
}

Colour colourOf(int type) {
    switch (type) {
        case PNG_COLOR_TYPE_PALETTE:
            return Colour::Palette;
        case PNG_COLOR_TYPE_GRAY_ALPHA:
            return Colour::GreyAlpha;
        case PNG_COLOR_TYPE_RGB:
            return Colour::Rgb;
        case PNG_COLOR_TYPE_RGB_ALPHA:
            return Colour::RgbAlpha;
        default:
            return Colour::Grey;
    }
}

tl::unexpected<Refusal> broken(const std::filesystem::path& file, const Reader& reader) {
    return refuse(
        Code::Unreadable, file.string(),
        fmt::format("the PNG is broken ({}); look for another copy", reader.faults.message));
}

}  // namespace

Result<void> readPngHeader(const std::filesystem::path& file, FileHeader& header) {
    Reader reader(file);
    if (reader.file == nullptr || !readInfo(reader)) {
        return broken(file, reader);
    }
    SheetHeader sheet;
    sheet.width = static_cast<int>(png_get_image_width(reader.png, reader.info));
    sheet.height = static_cast<int>(png_get_image_height(reader.png, reader.info));
    sheet.bits = png_get_bit_depth(reader.png, reader.info);
    sheet.channels = png_get_channels(reader.png, reader.info);
    sheet.decodedBytes = static_cast<std::uint64_t>(sheet.width) *
                         static_cast<std::uint64_t>(sheet.height) *
                         static_cast<std::uint64_t>(sheet.channels) * (sheet.bits == 16 ? 2 : 1);
    readTags(reader, sheet, header);
    turnUpright(sheet);
    header.sheets.push_back(std::move(sheet));
    return {};
}

Result<Raster> decodePng(const std::filesystem::path& file, const SheetHeader& sheet) {
    Reader reader(file);
    if (reader.file == nullptr || !readInfo(reader)) {
        return broken(file, reader);
    }
    const int width = static_cast<int>(png_get_image_width(reader.png, reader.info));
    const int height = static_cast<int>(png_get_image_height(reader.png, reader.info));
    Raster raster;
    raster.colour = colourOf(png_get_color_type(reader.png, reader.info));
    if (raster.colour == Colour::Palette) {
        readPalette(reader, raster);
    }
    const int channels = png_get_channels(reader.png, reader.info);
    raster.pixels = cv::Mat(height, width, CV_MAKETYPE(sheet.bits == 16 ? CV_16U : CV_8U, channels),
                            cv::Scalar::all(sheet.bits == 16 ? 32768 : 128));
    std::vector<png_bytep> rows(static_cast<std::size_t>(height));
    for (int y = 0; y < height; ++y) {
        rows[static_cast<std::size_t>(y)] = raster.pixels.ptr<std::uint8_t>(y);
    }
    volatile int progress = 0;
    if (readRows(reader, rows.data(), height, progress)) {
        return raster;
    }
    const int good = progress;
    raster.complete = false;
    raster.notes.push_back(
        fmt::format("incomplete: the PNG stream is damaged ({})", reader.faults.message));
    const bool interlaced = png_get_interlace_type(reader.png, reader.info) != PNG_INTERLACE_NONE;
    if (interlaced && good == 0) {
        raster.notes.emplace_back("interlaced: the whole picture is coarser than it was");
    } else {
        raster.pixels.rowRange(good, height).setTo(cv::Scalar::all(sheet.bits == 16 ? 32768 : 128));
    }
    raster.unreadable.emplace_back(0, good, width, height - good);
    return raster;
}

}  // namespace imaging::raster

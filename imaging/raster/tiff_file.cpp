#include "imaging/raster/tiff_file.h"

#include "imaging/raster/tiff_handle.h"
#include "imaging/raster/tiff_rows.h"

#include <fmt/format.h>
#include <opencv2/core.hpp>

#include <algorithm>
#include <cstring>

namespace imaging::raster {
namespace {

constexpr int kMostPages = 10000;

/// How the samples of a directory are read; `Converted` goes through libtiff's own RGBA reader.
enum class Path { Samples, Converted, Refused };

struct Layout {
    Path path = Path::Samples;
    Colour colour = Colour::Grey;
    std::string refusal;
};

std::string sampleName(std::uint16_t format, std::uint16_t bits) {
    switch (format) {
        case SAMPLEFORMAT_INT:
            return fmt::format("{}-bit signed", bits);
        case SAMPLEFORMAT_IEEEFP:
            return fmt::format("{}-bit float", bits);
        case SAMPLEFORMAT_COMPLEXINT:
        case SAMPLEFORMAT_COMPLEXIEEEFP:
            return "complex";
        default:
            return fmt::format("{}-bit", bits);
    }
}

bool isOneOf(std::uint16_t value, std::initializer_list<int> list) {
    return std::find(list.begin(), list.end(), int{value}) != list.end();
}

Layout layoutOf(const TiffTags& tags) {
    Layout layout;
    const auto refused = [&](std::string why) {
        layout.path = Path::Refused;
        layout.refusal = std::move(why);
        return layout;
    };
    if (tags.compression == COMPRESSION_OJPEG) {
        layout.path = Path::Converted;
        layout.colour = Colour::Rgb;
        return layout;
    }
    if (!isOneOf(tags.format, {SAMPLEFORMAT_UINT, SAMPLEFORMAT_VOID}) ||
        !isOneOf(tags.bits, {1, 2, 4, 8, 16})) {
        return refused(sampleName(tags.format, tags.bits) + " samples");
    }
    const bool whole = tags.bits == 8 || tags.bits == 16;
    switch (tags.photometric) {
        case PHOTOMETRIC_MINISWHITE:
        case PHOTOMETRIC_MINISBLACK:
            if (tags.samples == 1 || (tags.samples == 2 && whole)) {
                layout.colour = tags.samples == 1 ? Colour::Grey : Colour::GreyAlpha;
                return layout;
            }
            return refused(fmt::format("{} grey samples a pixel", tags.samples));
        case PHOTOMETRIC_RGB:
            if (whole && (tags.samples == 3 || tags.samples == 4)) {
                layout.colour = tags.samples == 3 ? Colour::Rgb : Colour::RgbAlpha;
                return layout;
            }
            return refused(fmt::format("{} colour samples of {} bits", tags.samples, tags.bits));
        case PHOTOMETRIC_PALETTE:
            if (tags.bits == 8 && tags.samples == 1) {
                layout.colour = Colour::Palette;
                return layout;
            }
            break;
        case PHOTOMETRIC_SEPARATED:
            if (whole && tags.samples == 4) {
                layout.colour = Colour::Cmyk;
                return layout;
            }
            return refused("ink separations other than four");
        case PHOTOMETRIC_YCBCR:
            if (tags.compression == COMPRESSION_JPEG && tags.bits == 8 && tags.samples == 3) {
                layout.colour = Colour::Rgb;  // libtiff's JPEG decoder is told to give RGB
                return layout;
            }
            break;
        default:
            break;
    }
    if (tags.bits > 8) {
        return refused(fmt::format("photometric kind {} at {} bits", tags.photometric, tags.bits));
    }
    layout.path = Path::Converted;
    layout.colour = Colour::Rgb;
    return layout;
}

SheetHeader sheetOf(const TiffTags& tags, int page, const std::string& place) {
    SheetHeader sheet;
    sheet.page = page;
    sheet.width = static_cast<int>(std::min<std::uint32_t>(tags.width, 0x7fffffff));
    sheet.height = static_cast<int>(std::min<std::uint32_t>(tags.height, 0x7fffffff));
    sheet.orientation = tags.orientation;
    sheet.bits = tags.bits;
    sheet.channels = tags.samples;
    if (tags.xResolution && tags.yResolution) {
        const double x = *tags.xResolution;
        const double y = *tags.yResolution;
        if (tags.unit == RESUNIT_NONE) {
            if (x > 0 && y > 0) {
                sheet.pixelAspect = y / x;
                sheet.notes.push_back(fmt::format(
                    "the TIFF gives {:.6g} x {:.6g} without a unit: a ratio, no scale", x, y));
            }
        } else {
            sheet.resolution.push_back(
                {x, y, tags.unit == RESUNIT_CENTIMETER ? "cm" : "in", "TIFF"});
            if (!tags.unitGiven) {
                sheet.notes.emplace_back(
                    "the TIFF gives a resolution without a unit: inch, by the format's default");
            }
        }
    }
    if (tags.hasProfile) {
        sheet.notes.emplace_back("carries an ICC profile, which is not applied");
    }
    const Layout layout = layoutOf(tags);
    const std::uint64_t pixels = std::uint64_t{tags.width} * tags.height;
    sheet.decodedBytes = layout.path == Path::Converted
                             ? pixels * 7  // packed words and the three bytes taken from them
                             : pixels * tags.samples * std::max(1, (tags.bits + 7) / 8);
    if (layout.path == Path::Refused) {
        sheet.refused = Refusal{Code::UnsupportedFormat, place,
                                fmt::format("page {}: {} are not supported; convert a copy to 8 or "
                                            "16 bits grey or RGB",
                                            page, layout.refusal)};
    }
    if (layout.colour == Colour::Cmyk) {
        sheet.notes.emplace_back("CMYK, shown in approximate colour");
    }
    turnUpright(sheet);
    return sheet;
}

/// Goes through the directories; `visit` gets each full-resolution one and its page number and
/// returns whether to go on. A chain that loops ends where libtiff notices it.
template <class Visit>
void eachPage(TiffHandle& tiff, const Visit& visit) {
    int page = 0;
    int directories = 0;
    do {
        const TiffTags tags = readTags(tiff.get());
        if ((tags.subfile & FILETYPE_REDUCEDIMAGE) == 0 && (tags.subfile & FILETYPE_MASK) == 0 &&
            !visit(tags, ++page)) {
            return;
        }
    } while (++directories < kMostPages && TIFFReadDirectory(tiff.get()) == 1);
}

void readPalette(TIFF* tiff, const TiffTags& tags, Raster& raster) {
    std::uint16_t* red = nullptr;
    std::uint16_t* green = nullptr;
    std::uint16_t* blue = nullptr;
    if (TIFFGetField(tiff, TIFFTAG_COLORMAP, &red, &green, &blue) != 1) {
        return;
    }
    const std::size_t count = std::size_t{1} << tags.bits;
    // Some writers give 8-bit colours in the 16-bit table.
    bool narrow = true;
    for (std::size_t i = 0; i < count; ++i) {
        narrow = narrow && red[i] < 256 && green[i] < 256 && blue[i] < 256;
    }
    const unsigned shift = narrow ? 0 : 8;
    for (std::size_t i = 0; i < count; ++i) {
        raster.palette.push_back({static_cast<std::uint8_t>(red[i] >> shift),
                                  static_cast<std::uint8_t>(green[i] >> shift),
                                  static_cast<std::uint8_t>(blue[i] >> shift), 255});
    }
}

/// Kinds without a path of their own: libtiff turns them into 8-bit RGB.
bool convertWhole(TIFF* tiff, const TiffTags& tags, Raster& raster) {
    char why[1024] = {};
    TIFFRGBAImage image;
    if (TIFFRGBAImageOK(tiff, why) == 0 || TIFFRGBAImageBegin(&image, tiff, 1, why) == 0) {
        raster.notes.emplace_back(why);
        return false;
    }
    image.req_orientation = image.orientation;  // as stored: we turn it ourselves
    cv::Mat words(static_cast<int>(tags.height), static_cast<int>(tags.width), CV_32S);
    const bool good =
        TIFFRGBAImageGet(&image, words.ptr<std::uint32_t>(), tags.width, tags.height) == 1;
    TIFFRGBAImageEnd(&image);
    raster.pixels = cv::Mat(words.size(), CV_8UC3);
    for (int y = 0; y < words.rows; ++y) {
        const auto* in = words.ptr<std::uint32_t>(y);
        auto* out = raster.pixels.ptr<std::uint8_t>(y);
        for (int x = 0; x < words.cols; ++x) {
            out[3 * x] = static_cast<std::uint8_t>(TIFFGetR(in[x]));
            out[3 * x + 1] = static_cast<std::uint8_t>(TIFFGetG(in[x]));
            out[3 * x + 2] = static_cast<std::uint8_t>(TIFFGetB(in[x]));
        }
    }
    return good;
}

/// Turns min-is-white values in place, so that ink is the smaller number.
void turnValues(Raster& raster) {
    const double top = raster.pixels.depth() == CV_16U ? 65535 : 255;
    if (raster.pixels.channels() == 1) {
        cv::subtract(cv::Scalar::all(top), raster.pixels, raster.pixels);
        return;
    }
    std::vector<cv::Mat> planes;
    cv::split(raster.pixels, planes);
    cv::subtract(cv::Scalar::all(top), planes[0], planes[0]);
    cv::merge(planes, raster.pixels);
}

}  // namespace

Result<void> readTiffHeader(const std::filesystem::path& file, FileHeader& header) {
    TiffHandle tiff(file);
    if (tiff.get() == nullptr) {
        return refuse(
            Code::Unreadable, file.string(),
            fmt::format("the TIFF header is broken ({}); look for another copy",
                        tiff.messages().empty() ? "no directory" : tiff.messages().front()));
    }
    eachPage(tiff, [&](const TiffTags& tags, int page) {
        header.sheets.push_back(sheetOf(tags, page, file.string()));
        return true;
    });
    if (header.sheets.empty()) {
        return refuse(Code::Unreadable, file.string(),
                      "the TIFF holds no full-resolution page; look for another copy");
    }
    return {};
}

Result<Raster> decodeTiff(const std::filesystem::path& file, const SheetHeader& sheet,
                          const Budget& budget) {
    TiffHandle tiff(file);
    if (tiff.get() == nullptr) {
        return refuse(Code::Unreadable, file.string(), "the TIFF cannot be opened again");
    }
    Raster raster;
    std::optional<Refusal> refusal;
    eachPage(tiff, [&](const TiffTags& tags, int page) {
        if (page < sheet.page) {
            return true;
        }
        const Layout layout = layoutOf(tags);
        raster.colour = layout.colour;
        if (layout.path == Path::Converted) {
            raster.complete = convertWhole(tiff.get(), tags, raster);
            if (!raster.complete) {
                raster.unreadable.emplace_back(0, 0, static_cast<int>(tags.width),
                                               static_cast<int>(tags.height));
            }
            return false;
        }
        refusal = readSamples(tiff.get(), tags, budget, file.string(), raster);
        if (layout.colour == Colour::Palette) {
            readPalette(tiff.get(), tags, raster);
        }
        if (tags.photometric == PHOTOMETRIC_MINISWHITE && !refusal) {
            raster.minIsWhite = true;
            turnValues(raster);
        }
        raster.alphaAssociated = tags.alphaAssociated;
        return false;
    });
    if (refusal) {
        return tl::unexpected(*std::move(refusal));
    }
    if (raster.pixels.empty()) {
        return refuse(Code::Unreadable, file.string(),
                      fmt::format("page {} could not be decoded ({})", sheet.page,
                                  raster.notes.empty() ? "no reason given" : raster.notes.front()));
    }
    for (const std::string& message : tiff.messages()) {
        raster.notes.push_back("decoder: " + message);
    }
    return raster;
}

}  // namespace imaging::raster

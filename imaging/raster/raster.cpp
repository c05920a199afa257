#include "imaging/raster/raster.h"

#include "imaging/raster/jpeg_file.h"
#include "imaging/raster/media_type.h"
#include "imaging/raster/png_file.h"
#include "imaging/raster/tiff_file.h"

#include <fmt/format.h>
#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace imaging::raster {
namespace {

int sample(const cv::Mat& pixels, int x, int y, int channel) {
    const int index = x * pixels.channels() + channel;
    return pixels.depth() == CV_16U ? int{pixels.ptr<std::uint16_t>(y)[index]}
                                    : int{pixels.ptr<std::uint8_t>(y)[index]};
}

std::uint8_t byte(double value) {
    return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
}

/// RGB, or RGB with an alpha that is full everywhere: nothing to lay on white.
bool isOpaqueRgb(const Raster& raster, const cv::Mat& part) {
    if (raster.colour != Colour::RgbAlpha) {
        return raster.colour == Colour::Rgb;
    }
    cv::Mat alpha;
    cv::extractChannel(part, alpha, 3);
    double least = 0;
    cv::minMaxLoc(alpha, &least, nullptr);
    return least >= 255;
}

/// From stored numbers to the screen's 0 … 255.
struct Shown {
    double low = 0;
    double gain = 1;
    [[nodiscard]] double level(double stored) const { return (stored - low) * gain; }
};

}  // namespace

cv::Mat upright(const cv::Mat& stored, int orientation) {
    cv::Mat result;
    switch (orientation) {
        case 2:
            cv::flip(stored, result, 1);
            return result;
        case 3:
            cv::flip(stored, result, -1);
            return result;
        case 4:
            cv::flip(stored, result, 0);
            return result;
        case 5:
            cv::transpose(stored, result);
            return result;
        case 6:
            cv::rotate(stored, result, cv::ROTATE_90_CLOCKWISE);
            return result;
        case 7: {
            cv::Mat turned;
            cv::transpose(stored, turned);
            cv::flip(turned, result, -1);
            return result;
        }
        case 8:
            cv::rotate(stored, result, cv::ROTATE_90_COUNTERCLOCKWISE);
            return result;
        default:
            return stored;
    }
}

cv::Rect uprightRect(const cv::Rect& r, int orientation, cv::Size size) {
    const int right = size.width - r.x - r.width;
    const int below = size.height - r.y - r.height;
    switch (orientation) {
        case 2:
            return {right, r.y, r.width, r.height};
        case 3:
            return {right, below, r.width, r.height};
        case 4:
            return {r.x, below, r.width, r.height};
        case 5:
            return {r.y, r.x, r.height, r.width};
        case 6:
            return {below, r.x, r.height, r.width};
        case 7:
            return {below, right, r.height, r.width};
        case 8:
            return {r.y, right, r.height, r.width};
        default:
            return r;
    }
}

Result<Raster> decodePage(const std::filesystem::path& file, int page, const Budget& budget) {
    const auto header = readHeader(file);
    if (!header) {
        return tl::unexpected(header.error());
    }
    if (page < 1 || page > static_cast<int>(header->sheets.size())) {
        return refuse(Code::NoSuchPage, file.string(),
                      fmt::format("there is no page {}; the file has {} page(s)", page,
                                  header->sheets.size()));
    }
    const SheetHeader& sheet = header->sheets[static_cast<std::size_t>(page - 1)];
    if (sheet.refused) {
        return tl::unexpected(*sheet.refused);
    }
    if (auto refusal = overBudget(sheet, budget, file.string())) {
        return tl::unexpected(*std::move(refusal));
    }
    Result<Raster> decoded = header->mediaType == "image/jpeg"  ? decodeJpeg(file)
                             : header->mediaType == "image/png" ? decodePng(file, sheet)
                                                                : decodeTiff(file, sheet, budget);
    if (!decoded) {
        return decoded;
    }
    const cv::Size stored = decoded->pixels.size();
    decoded->pixels = upright(decoded->pixels, sheet.orientation);
    for (cv::Rect& area : decoded->unreadable) {
        area = uprightRect(area, sheet.orientation, stored);
    }
    decoded->header = sheet;
    return decoded;
}

std::vector<int> storedValue(const Raster& raster, int x, int y) {
    std::vector<int> values;
    const int top = raster.pixels.depth() == CV_16U ? 65535 : 255;
    for (int c = 0; c < raster.pixels.channels(); ++c) {
        int value = sample(raster.pixels, x, y, c);
        if (raster.minIsWhite && c == 0) {
            value = top - value;
        }
        if (raster.header.bits < 8 && raster.colour == Colour::Grey) {
            const int steps = (1 << raster.header.bits) - 1;
            value = value * steps / 255;
        }
        values.push_back(value);
    }
    return values;
}

cv::Mat toDisplay8(const Raster& raster, std::optional<cv::Rect> part,
                   std::optional<ContrastWindow> window) {
    const cv::Rect whole(0, 0, raster.pixels.cols, raster.pixels.rows);
    const cv::Mat source = raster.pixels(part.value_or(whole) & whole);
    const double top = source.depth() == CV_16U ? 65535 : 255;
    Shown shown{0, 255 / top};
    if (window && window->high != window->low) {
        shown = {window->low, 255 / (window->high - window->low)};
    }
    if (raster.colour == Colour::Grey) {
        cv::Mat grey;
        source.convertTo(grey, CV_8U, shown.gain, -shown.low * shown.gain);
        return grey;
    }
    if (source.depth() == CV_8U && !window && isOpaqueRgb(raster, source)) {
        if (source.channels() == 3) {
            return source.clone();
        }
        cv::Mat rgb;
        cv::cvtColor(source, rgb, cv::COLOR_RGBA2RGB);
        return rgb;
    }
    cv::Mat result(source.size(), CV_8UC3);
    for (int y = 0; y < source.rows; ++y) {
        auto* out = result.ptr<std::uint8_t>(y);
        for (int x = 0; x < source.cols; ++x, out += 3) {
            std::array<double, 3> colour{};
            double alpha = 1;
            const auto at = [&](int c) { return double(sample(source, x, y, c)); };
            switch (raster.colour) {
                case Colour::Grey:
                    break;
                case Colour::GreyAlpha:
                    colour.fill(shown.level(at(0)));
                    alpha = at(1) / top;
                    break;
                case Colour::Rgb:
                case Colour::RgbAlpha:
                    for (int c = 0; c < 3; ++c) {
                        colour[static_cast<std::size_t>(c)] = shown.level(at(c));
                    }
                    alpha = raster.colour == Colour::RgbAlpha ? at(3) / top : 1;
                    break;
                case Colour::Palette: {
                    const auto index = static_cast<std::size_t>(at(0));
                    if (index < raster.palette.size()) {
                        const auto& entry = raster.palette[index];
                        for (std::size_t c = 0; c < 3; ++c) {
                            colour[c] = entry[c];
                        }
                        alpha = entry[3] / 255.0;
                    }
                    break;
                }
                case Colour::Cmyk: {
                    const auto free = [&](int c) {
                        return raster.cmykInverted ? at(c) / top : 1 - at(c) / top;
                    };
                    for (int c = 0; c < 3; ++c) {
                        colour[static_cast<std::size_t>(c)] = 255 * free(c) * free(3);
                    }
                    break;
                }
            }
            for (std::size_t c = 0; c < 3; ++c) {
                const double ink = raster.alphaAssociated ? colour[c] : colour[c] * alpha;
                out[c] = byte(ink + 255 * (1 - alpha));
            }
        }
    }
    return result;
}

}  // namespace imaging::raster

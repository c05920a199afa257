#pragma once

#include "imaging/raster/header.h"

#include <opencv2/core/mat.hpp>

#include <array>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// Decoded pages at full depth, upright, origin at the centre of the top-left pixel.
namespace imaging::raster {

/// How the samples of a pixel are to be understood.
enum class Colour { Grey, GreyAlpha, Rgb, RgbAlpha, Palette, Cmyk };

/// One decoded page. `pixels` is CV_8U or CV_16U with the stored channels in the stored order (red
/// first); 1-, 2- and 4-bit grey is stretched to 8 bits; palette pictures keep their indices. Where
/// the file says that the smallest value is white, grey values are turned, so that ink is always
/// the smaller number. Upright. The Mat's data may be shared: nobody writes to it.
struct Raster {
    cv::Mat pixels;
    Colour colour = Colour::Grey;
    bool minIsWhite = false;                           ///< stored values were turned
    bool cmykInverted = false;                         ///< stored 255 means no ink
    bool alphaAssociated = false;                      ///< colours already multiplied by alpha
    std::vector<std::array<std::uint8_t, 4>> palette;  ///< red, green, blue, alpha
    SheetHeader header;
    bool complete = true;  ///< every stored part could be decoded
    /// Upright areas whose pixels could not be decoded; they hold mid-grey and are not measured.
    std::vector<cv::Rect> unreadable;
    std::vector<std::string> notes;
};

/// Decodes one page (1 = first). Parts that cannot be read are filled with mid-grey and listed.
/// Errors: those of readHeader; NoSuchPage; TooLarge (before allocation); UnsupportedFormat for
/// sample formats that are not read; Unreadable where nothing could be decoded.
[[nodiscard]] Result<Raster> decodePage(const std::filesystem::path& file, int page = 1,
                                        const Budget& budget = {});

/// The numbers in the file at an upright pixel, as stored (before min-is-white is turned and in the
/// file's own bits). Entry: 0 ≤ x < width, 0 ≤ y < height.
[[nodiscard]] std::vector<int> storedValue(const Raster& raster, int x, int y);

/// Contrast window in stored-depth grey units: `low` is shown black, `high` white.
struct ContrastWindow {
    double low = 0;
    double high = 255;
};

/// The page or a part of it for the screen: CV_8UC1 for grey pictures, else CV_8UC3 in the order
/// red, green, blue. Transparency is laid on white, CMYK is approximate, palettes are looked up;
/// 16 bits are shown through `window` or, without one, over their full range. Coordinates stay.
[[nodiscard]] cv::Mat toDisplay8(const Raster& raster, std::optional<cv::Rect> part = {},
                                 std::optional<ContrastWindow> window = {});

/// Turns a stored page upright after the orientation tag (1 … 8).
[[nodiscard]] cv::Mat upright(const cv::Mat& stored, int orientation);

/// Where a rectangle of the stored page (width × height pixels) lies on the upright one.
[[nodiscard]] cv::Rect uprightRect(const cv::Rect& stored, int orientation, cv::Size storedSize);

}  // namespace imaging::raster

// What real scans do to a reader: one test for each prepared file, the right results as listed with
// the files (own drawings; data/SOURCES.md).
#include "imaging/raster/grey_image.h"
#include "imaging/raster/raster.h"
#include "tests/imaging/raster/case_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace imaging::raster {
namespace {

using test::caseFile;
using testing::HasSubstr;

SheetHeader sheetOf(const std::string& name, std::size_t page = 0) {
    const auto header = readHeader(caseFile(name));
    EXPECT_TRUE(header) << header.error().help;
    return header->sheets.at(page);
}

Raster decoded(const std::string& name, int page = 1) {
    auto raster = decodePage(caseFile(name), page);
    EXPECT_TRUE(raster) << raster.error().help;
    return *std::move(raster);
}

std::array<int, 3> shown(const Raster& raster, int x, int y) {
    const cv::Mat pixel = toDisplay8(raster, cv::Rect(x, y, 1, 1));
    const auto* p = pixel.ptr<std::uint8_t>(0);
    return pixel.channels() == 1 ? std::array<int, 3>{p[0], p[0], p[0]}
                                 : std::array<int, 3>{p[0], p[1], p[2]};
}

bool isDark(const std::array<int, 3>& p) {
    return p[0] < 90 && p[1] < 90 && p[2] < 90;
}

bool isWhite(const std::array<int, 3>& p) {
    return p[0] > 235 && p[1] > 235 && p[2] > 235;
}

/// The three crosses of the common sheet, black, red and blue, on white paper.
void expectCommonSheet(const Raster& raster) {
    ASSERT_EQ(raster.pixels.size(), cv::Size(1000, 800));
    EXPECT_TRUE(isDark(shown(raster, 200, 300)));
    const auto red = shown(raster, 800, 300);
    EXPECT_GT(red[0], 150);
    EXPECT_LT(red[1], 90);
    EXPECT_LT(red[2], 90);
    const auto blue = shown(raster, 200, 700);
    EXPECT_LT(blue[0], 90);
    EXPECT_GT(blue[2], 150);
    EXPECT_TRUE(isWhite(shown(raster, 500, 500)));
    EXPECT_TRUE(isDark(shown(raster, 40, 40)));  // the square that tells the top-left corner
    EXPECT_TRUE(isWhite(shown(raster, 960, 40)));
}

void expectSize(const SheetHeader& sheet, double width, double height) {
    const auto size = claimedSize(sheet);
    ASSERT_TRUE(size);
    EXPECT_NEAR(size->width, width, 0.002 * width);
    EXPECT_NEAR(size->height, height, 0.002 * height);
}

struct Common {
    const char* file;
    int orientation;
    const char* claimedBy;
};

class CommonSheet : public testing::TestWithParam<Common> {};

TEST_P(CommonSheet, IsUprightTenByEightInches) {
    const SheetHeader sheet = sheetOf(GetParam().file);
    EXPECT_EQ(sheet.width, 1000);
    EXPECT_EQ(sheet.height, 800);
    EXPECT_EQ(sheet.orientation, GetParam().orientation);
    ASSERT_EQ(sheet.resolution.size(), 1U);
    EXPECT_EQ(sheet.resolution[0].claimedBy, GetParam().claimedBy);
    expectSize(sheet, 10, 8);
    const Raster raster = decoded(GetParam().file);
    EXPECT_TRUE(raster.complete);
    expectCommonSheet(raster);
}

INSTANTIATE_TEST_SUITE_P(Cases, CommonSheet,
                         testing::Values(Common{"01_exif_orient6.jpg", 6, "EXIF"},
                                         Common{"02_tiff_orient8.tif", 8, "TIFF"},
                                         Common{"03_png_exif_orient5.png", 5, "pHYs"},
                                         Common{"12_bigtiff_tiled_planar_separate.tif", 1, "TIFF"},
                                         Common{"23_png_named.jpg", 1, "pHYs"}),
                         [](const auto& row) { return "Case" + std::string(row.param.file, 2); });

TEST(Catalogue, Case04KeepsCentimetres) {
    const SheetHeader sheet = sheetOf("04_tiff_res_cm.tif");
    ASSERT_EQ(sheet.resolution.size(), 1U);
    EXPECT_EQ(sheet.resolution[0].per, "cm");
    EXPECT_DOUBLE_EQ(sheet.resolution[0].x, 40);
    EXPECT_NEAR(perInch(sheet.resolution[0]).x, 101.6, 1e-9);
    expectSize(sheet, 25 / 2.54, 20 / 2.54);
}

TEST(Catalogue, Case05GivesNoScaleWithoutAUnit) {
    const SheetHeader sheet = sheetOf("05_tiff_res_unit_none.tif");
    EXPECT_TRUE(sheet.resolution.empty());
    EXPECT_FALSE(claimedSize(sheet));
    ASSERT_TRUE(sheet.pixelAspect);
    EXPECT_DOUBLE_EQ(*sheet.pixelAspect, 1);
}

TEST(Catalogue, Case06IsBlackOnWhiteWithTwoScales) {
    const SheetHeader sheet = sheetOf("06_g4_miniswhite_200x100dpi.tif");
    EXPECT_EQ(sheet.bits, 1);
    expectSize(sheet, 5, 8);
    const Raster raster = decoded("06_g4_miniswhite_200x100dpi.tif");
    EXPECT_TRUE(isDark(shown(raster, 200, 300)));
    EXPECT_TRUE(isWhite(shown(raster, 500, 500)));
    EXPECT_EQ(storedValue(raster, 200, 300), std::vector<int>{1});
    EXPECT_EQ(storedValue(raster, 500, 500), std::vector<int>{0});
}

TEST(Catalogue, Case07ListsAllThreeClaimsAndChoosesNone) {
    const SheetHeader sheet = sheetOf("07_jpeg_three_dpis.jpg");
    ASSERT_EQ(sheet.resolution.size(), 3U);
    EXPECT_EQ(sheet.resolution[0].claimedBy, "JFIF");
    EXPECT_DOUBLE_EQ(sheet.resolution[0].x, 72);
    EXPECT_EQ(sheet.resolution[1].claimedBy, "EXIF");
    EXPECT_DOUBLE_EQ(sheet.resolution[1].x, 300);
    EXPECT_EQ(sheet.resolution[2].claimedBy, "Photoshop resource 0x03ED");
    EXPECT_DOUBLE_EQ(sheet.resolution[2].x, 600);
    EXPECT_FALSE(claimedSize(sheet));
}

TEST(Catalogue, Case08HasNoResolutionAtAll) {
    const SheetHeader sheet = sheetOf("08_jpeg_no_resolution.jpg");
    EXPECT_TRUE(sheet.resolution.empty());
    EXPECT_FALSE(sheet.pixelAspect);
    EXPECT_THAT(sheet.notes, testing::Contains(HasSubstr("no resolution in the file")));
}

TEST(Catalogue, Case09KeepsTheRatioOfItsAxes) {
    const SheetHeader sheet = sheetOf("09_jpeg_aspect_only_2to1.jpg");
    EXPECT_TRUE(sheet.resolution.empty());
    ASSERT_TRUE(sheet.pixelAspect);
    EXPECT_DOUBLE_EQ(*sheet.pixelAspect, 0.5);
}

TEST(Catalogue, Case10KeepsSixteenBits) {
    const Raster raster = decoded("10_gray16_low_contrast.tif");
    EXPECT_EQ(storedValue(raster, 200, 300), std::vector<int>{30000});
    EXPECT_EQ(storedValue(raster, 800, 300), std::vector<int>{30050});
    EXPECT_EQ(storedValue(raster, 500, 500), std::vector<int>{30200});
    EXPECT_DOUBLE_EQ(toGrey(raster).at(200, 700), 30100);
    expectSize(raster.header, 10, 8);
    // Unseen at full range, plain through a contrast window.
    EXPECT_NEAR(shown(raster, 200, 300)[0], shown(raster, 500, 500)[0], 1);
    const cv::Mat window = toDisplay8(raster, {}, ContrastWindow{29990, 30210});
    EXPECT_LT(window.at<std::uint8_t>(300, 200), 20);
    EXPECT_GT(window.at<std::uint8_t>(500, 500), 235);
}

TEST(Catalogue, Case11ShowsInksInTheirColours) {
    const Raster raster = decoded("11_cmyk_adobe_inverted.jpg");
    EXPECT_EQ(raster.colour, Colour::Cmyk);
    const auto near = [](std::array<int, 3> a, std::array<int, 3> b) {
        for (std::size_t i = 0; i < 3; ++i) {
            if (std::abs(a[i] - b[i]) > 15) {
                return false;
            }
        }
        return true;
    };
    EXPECT_TRUE(near(shown(raster, 500, 300), {255, 255, 255}));
    EXPECT_TRUE(near(shown(raster, 175, 525), {255, 0, 0}));
    EXPECT_TRUE(near(shown(raster, 395, 525), {0, 255, 255}));
    EXPECT_TRUE(near(shown(raster, 615, 525), {0, 0, 0}));
    EXPECT_TRUE(near(shown(raster, 835, 525), {128, 128, 128}));
    EXPECT_TRUE(isDark(shown(raster, 200, 300)));
    expectSize(raster.header, 10, 8);
}

TEST(Catalogue, Case13HasThreePagesAndNoThumbnailAmongThem) {
    const auto header = readHeader(caseFile("13_multipage_mixed_dpi_plus_thumbnail.tif"));
    ASSERT_TRUE(header);
    ASSERT_EQ(header->sheets.size(), 3U);
    expectSize(header->sheets[0], 10, 8);
    expectSize(header->sheets[1], 5, 4);
    expectSize(header->sheets[2], 10, 8);
    EXPECT_EQ(header->sheets[2].orientation, 6);
    for (int page = 1; page <= 3; ++page) {
        const Raster raster = decoded("13_multipage_mixed_dpi_plus_thumbnail.tif", page);
        EXPECT_EQ(raster.pixels.size(), cv::Size(1000, 800));
        EXPECT_LT(shown(raster, 800, 300)[0], 120);
        EXPECT_LT(shown(raster, 200, 700)[0], 120);
    }
    const auto none = decodePage(caseFile("13_multipage_mixed_dpi_plus_thumbnail.tif"), 4);
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, Code::NoSuchPage);
}

TEST(Catalogue, Case14LiesOnWhite) {
    const Raster raster = decoded("14_palette_with_transparency.png");
    EXPECT_EQ(raster.colour, Colour::Palette);
    EXPECT_TRUE(isWhite(shown(raster, 500, 500)));
    EXPECT_TRUE(isDark(shown(raster, 200, 300)));
    EXPECT_NEAR(toGrey(raster).at(500, 500), 255, 1e-3);
}

TEST(Catalogue, Case15SaysThatTheProfileIsNotApplied) {
    EXPECT_THAT(sheetOf("15_gray_icc_gamma1.tif").notes,
                testing::Contains(HasSubstr("profile, which is not applied")));
}

TEST(Catalogue, Case16KeepsTheRowsAboveTheCut) {
    const Raster raster = decoded("16_truncated_scan.jpg");
    EXPECT_FALSE(raster.complete);
    ASSERT_EQ(raster.unreadable.size(), 1U);
    EXPECT_NEAR(raster.unreadable[0].y, 576, 16);
    EXPECT_EQ(raster.unreadable[0].br(), cv::Point(1000, 800));
    EXPECT_TRUE(isDark(shown(raster, 200, 300)));
    EXPECT_FALSE(toGrey(raster).readable(200, 700));
    EXPECT_TRUE(toGrey(raster).readable(200, 300));
}

TEST(Catalogue, Case17KeepsTheStripsAroundTheBadOne) {
    const Raster raster = decoded("17_tiff_one_bad_strip.tif");
    EXPECT_FALSE(raster.complete);
    ASSERT_EQ(raster.unreadable.size(), 1U);
    EXPECT_EQ(raster.unreadable[0], cv::Rect(0, 500, 1000, 100));
    EXPECT_LT(shown(raster, 200, 300)[0], 120);
    EXPECT_LT(shown(raster, 200, 700)[0], 120);
    EXPECT_TRUE(isWhite(shown(raster, 500, 650)));
    EXPECT_EQ(shown(raster, 500, 550)[0], 128);
}

TEST(Catalogue, Case18RefusesWithNumbersBeforeAllocating) {
    const auto png = decodePage(caseFile("18a_png_header_60000x60000.png"));
    ASSERT_FALSE(png);
    EXPECT_EQ(png.error().code, Code::TooLarge);
    EXPECT_THAT(png.error().help, HasSubstr("3600 megapixels, 14.4 GB"));
    const auto tiff = decodePage(caseFile("18b_tiff_header_2Mx2M.tif"));
    ASSERT_FALSE(tiff);
    EXPECT_THAT(tiff.error().help, HasSubstr("4000000 megapixels, 32 TB"));
}

TEST(Catalogue, Case22ReadsOldStyleJpegOrRefuses) {
    const auto raster = decodePage(caseFile("22_old_style_jpeg_in_tiff.tif"));
    if (!raster) {
        EXPECT_FALSE(raster.error().help.empty());
        return;
    }
    EXPECT_EQ(raster->pixels.size(), cv::Size(992, 800));
    EXPECT_TRUE(isDark(shown(*raster, 200, 300)));
    EXPECT_TRUE(isWhite(shown(*raster, 500, 500)));
}

TEST(Catalogue, Case23GoesByContent) {
    const auto named = readHeader(caseFile("23_png_named.jpg"));
    ASSERT_TRUE(named);
    EXPECT_EQ(named->mediaType, "image/png");
    EXPECT_EQ(named->namedAs, "image/jpeg");
    const auto empty = readHeader(caseFile("23_empty.tif"));
    ASSERT_FALSE(empty);
    EXPECT_EQ(empty.error().code, Code::NotAPicture);
    const auto page = readHeader(caseFile("23_html_error_page.jpg"));
    ASSERT_FALSE(page);
    EXPECT_EQ(page.error().code, Code::NotAPicture);
    EXPECT_THAT(page.error().help, HasSubstr("not a picture"));
}

TEST(Catalogue, KnownKindsThatAreNotReadAreNamed) {
    const auto jp2 = readHeader(caseFile("21_jp2_16bit_capture300_display72.jp2"));
    ASSERT_FALSE(jp2);
    EXPECT_EQ(jp2.error().code, Code::UnsupportedFormat);
    EXPECT_THAT(jp2.error().help, HasSubstr("image/jp2"));
    const auto pdf = readHeader(caseFile("32_pdf_rotate90.pdf"));
    ASSERT_FALSE(pdf);
    EXPECT_EQ(pdf.error().code, Code::UnsupportedFormat);
    const auto missing = readHeader(caseFile("no_such_file.tif"));
    ASSERT_FALSE(missing);
    EXPECT_EQ(missing.error().code, Code::MissingFile);
}

}  // namespace
}  // namespace imaging::raster

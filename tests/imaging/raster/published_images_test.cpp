// Pictures of others with stated truth; sources and licences in data/SOURCES.md.
#include "imaging/raster/grey_image.h"
#include "imaging/raster/raster.h"
#include "tests/imaging/raster/case_files.h"

#include <gtest/gtest.h>
#include <opencv2/core.hpp>

namespace imaging::raster {
namespace {

using test::imageFile;

Raster decoded(const std::string& name) {
    auto raster = decodePage(imageFile(name));
    EXPECT_TRUE(raster) << raster.error().help;
    return *std::move(raster);
}

TEST(PublishedImages, MinIsWhiteLoadsEqualToMinIsBlack) {
    const Raster black = decoded("minisblack.tif");
    const Raster white = decoded("miniswhite.tif");
    EXPECT_EQ(cv::norm(black.pixels, white.pixels, cv::NORM_INF), 0);
    EXPECT_NEAR(cv::mean(black.pixels)[0], 152.898, 5e-4);
}

TEST(PublishedImages, SixteenBitsAreKept) {
    for (const char* name : {"test16.tif", "test16.png"}) {
        const Raster raster = decoded(name);
        EXPECT_EQ(raster.pixels.depth(), CV_16U);
        double low = 0;
        double high = 0;
        cv::minMaxLoc(raster.pixels.reshape(1), &low, &high);
        EXPECT_EQ(high, 65535);
        EXPECT_NEAR(cv::mean(raster.pixels.reshape(1))[0], 51562.59, 0.01) << name;
    }
    EXPECT_EQ(decoded("rgb16.tif").pixels.type(), CV_16UC3);
}

TEST(PublishedImages, TurnedPhotographsAreUpright) {
    EXPECT_EQ(decoded("Landscape_6.jpg").pixels.size(), cv::Size(1800, 1200));
    EXPECT_EQ(decoded("Landscape_8.jpg").pixels.size(), cv::Size(1800, 1200));
    // The same scene: both must look alike once each tag is applied.
    const cv::Mat six = toDisplay8(decoded("Landscape_6.jpg"));
    const cv::Mat eight = toDisplay8(decoded("Landscape_8.jpg"));
    EXPECT_LT(cv::norm(six, eight, cv::NORM_L1) / (1800.0 * 1200 * 3), 6);
}

TEST(PublishedImages, TransparentChessboardIsMeasuredOnWhite) {
    const Raster raster = decoded("chessboard.png");
    EXPECT_EQ(raster.colour, Colour::RgbAlpha);
    const GreyImage grey = toGrey(raster);
    EXPECT_EQ(grey.width(), 3595);
    EXPECT_EQ(grey.height(), 3723);
}

}  // namespace
}  // namespace imaging::raster

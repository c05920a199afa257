#include "app/desk/page/page_picture.h"

#include "app/desk/page/tile_source.h"

#include <gtest/gtest.h>
#include <opencv2/core.hpp>

namespace {

using app::desk::page::PagePicture;
using imaging::raster::Colour;
using imaging::raster::Raster;

Raster noisy(int width, int height, int type, Colour colour, std::uint64_t seed) {
    Raster raster;
    raster.pixels.create(height, width, type);
    cv::RNG chance(seed);
    chance.fill(raster.pixels, cv::RNG::UNIFORM, 0, 256);
    raster.colour = colour;
    raster.header.width = width;
    raster.header.height = height;
    return raster;
}

TEST(PagePicture, LevelZeroIsTheDecodedPage) {
    const Raster raster = noisy(700, 530, CV_8UC3, Colour::Rgb, 1);
    const PagePicture picture(raster);
    const QImage part = picture.part(0, QRect(100, 200, 64, 32));
    for (int y = 0; y < part.height(); ++y)
        for (int x = 0; x < part.width(); ++x) {
            const auto pixel = raster.pixels.at<cv::Vec3b>(200 + y, 100 + x);
            ASSERT_EQ(part.pixel(x, y), qRgb(pixel[0], pixel[1], pixel[2]));
        }
}

TEST(PagePicture, EachLevelHalvesUntilOneTileHoldsIt) {
    const PagePicture picture(noisy(2049, 1000, CV_8UC1, Colour::Grey, 2));
    ASSERT_EQ(picture.levels(), 5);
    EXPECT_EQ(picture.sizeOf(1), QSize(1025, 500));
    EXPECT_EQ(picture.sizeOf(4), QSize(129, 63));
}

TEST(PagePicture, ReducedPixelIsTheMeanOfWhatItCovers) {
    const Raster raster = noisy(601, 2051, CV_8UC1, Colour::Grey, 3);  // beyond one strip of rows
    const PagePicture picture(raster);
    const QSize size = picture.sizeOf(1);
    const QImage level = picture.part(1, QRect(QPoint(0, 0), size));
    for (int y = 0; y < size.height(); ++y)
        for (int x = 0; x < size.width(); ++x) {
            const cv::Rect covered = cv::Rect(2 * x, 2 * y, 2, 2) &
                                     cv::Rect(0, 0, raster.pixels.cols, raster.pixels.rows);
            const double mean = cv::mean(raster.pixels(covered))[0];
            ASSERT_NEAR(qGray(level.pixel(x, y)), mean, 0.51) << x << ", " << y;
        }
}

TEST(PagePicture, FitsGetTheFullDepth) {
    Raster raster = noisy(300, 20, CV_16UC1, Colour::Grey, 4);
    raster.header.bits = 16;
    raster.pixels.at<std::uint16_t>(7, 11) = 54321;
    const PagePicture picture(raster);
    EXPECT_EQ(picture.grey().at(11, 7), 54321);
}

TEST(PagePicture, CancelledReadingGivesNoPicture) {
    const auto picture = PagePicture::read({"nowhere.png"}, [] { return true; });
    ASSERT_TRUE(picture);
    EXPECT_EQ(*picture, nullptr);
}

}  // namespace

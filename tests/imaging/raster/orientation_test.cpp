#include "imaging/raster/raster.h"

#include <gtest/gtest.h>
#include <opencv2/core.hpp>

namespace imaging::raster {
namespace {

/// TIFF 6.0, tag 274: where row 0 and column 0 of the stored picture lie on the upright one.
cv::Point uprightPlace(cv::Point stored, int orientation, cv::Size size) {
    const int right = size.width - 1 - stored.x;
    const int below = size.height - 1 - stored.y;
    switch (orientation) {
        case 2:
            return {right, stored.y};
        case 3:
            return {right, below};
        case 4:
            return {stored.x, below};
        case 5:
            return {stored.y, stored.x};
        case 6:
            return {below, stored.x};
        case 7:
            return {below, right};
        case 8:
            return {stored.y, right};
        default:
            return stored;
    }
}

TEST(Orientation, EveryTagPutsEveryPixelWhereTheFormatSays) {
    cv::Mat stored(3, 5, CV_8U);
    for (int i = 0; i < 15; ++i) {
        stored.data[i] = static_cast<unsigned char>(i);
    }
    for (int tag = 1; tag <= 8; ++tag) {
        const cv::Mat turned = upright(stored, tag);
        for (int y = 0; y < 3; ++y) {
            for (int x = 0; x < 5; ++x) {
                const cv::Point place = uprightPlace({x, y}, tag, stored.size());
                ASSERT_EQ(turned.at<unsigned char>(place), stored.at<unsigned char>(y, x)) << tag;
                EXPECT_EQ(uprightRect(cv::Rect(x, y, 1, 1), tag, stored.size()),
                          cv::Rect(place, cv::Size(1, 1)))
                    << tag;
            }
        }
    }
}

}  // namespace
}  // namespace imaging::raster

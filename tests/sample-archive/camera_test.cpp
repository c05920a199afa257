#include "sample-archive/camera.h"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using sample::Camera;

TEST(Camera, SquareOnProjectsBySimilarTriangles) {
    Camera camera;
    camera.position = {85.75, 55, 515};
    camera.focal = 6776;
    camera.principal = {1500, 850};
    const cv::Point2d pixel = camera.project({95.75, 75, 31});
    // 10 in right and 20 in up at 484 in: 6776 / 484 = 14 px to the inch.
    EXPECT_NEAR(pixel.x, 1500 + 140, 1e-9);
    EXPECT_NEAR(pixel.y, 850 - 280, 1e-9);
}

TEST(Camera, RayThroughAPixelMeetsThePointItShows) {
    const Camera camera = sample::worksCamera(7, 35);
    const cv::Vec3d point(12.5, 80.25, 31);
    const cv::Vec3d ray = camera.rayThrough(camera.project(point));
    const cv::Vec3d met = camera.position + ray * ((point[2] - camera.position[2]) / ray[2]);
    EXPECT_NEAR(met[0], point[0], 1e-6);
    EXPECT_NEAR(met[1], point[1], 1e-6);
}

TEST(Camera, WorksCameraStandsAsStated) {
    double sum = 0;
    double squares = 0;
    constexpr int kSeeds = 400;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        const Camera camera = sample::worksCamera(seed, 35);
        const double distance = camera.position[2] - 35;
        sum += distance;
        squares += (distance - 480) * (distance - 480);
        EXPECT_LE(std::abs(camera.distortion), 1e-3);
    }
    EXPECT_NEAR(sum / kSeeds, 480, 4 * 24 / std::sqrt(kSeeds));
    EXPECT_NEAR(std::sqrt(squares / kSeeds), 24, 4 * 24 / std::sqrt(2.0 * kSeeds));
}

}  // namespace

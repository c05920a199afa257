#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"
#include "tests/imaging/mark/trials.h"

#include <gtest/gtest.h>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;
using test::Trials;

MarkRequest circleRequest(const PixelPoint& centre, double radius, Fit fit) {
    MarkRequest request;
    request.kind = MarkKind::Circle;
    request.fit = fit;
    for (const double angle : {0.3, 2.2, 4.4}) {
        request.points.push_back(centre + radius * PixelPoint(std::cos(angle), std::sin(angle)));
    }
    return request;
}

struct Disc {
    const char* name;
    double radius;
    double blur;
    double noise;
};

class RoundEdge : public testing::TestWithParam<Disc> {};

TEST_P(RoundEdge, RadiusAndCentreAreUnbiasedAndHonest) {
    const Disc disc = GetParam();
    const PixelPoint centre(50.3, 49.6);
    const cv::Mat clean = render(
        100, 100,
        [&](double x, double y) { return (PixelPoint(x, y) - centre).norm() < disc.radius; },
        disc.blur);
    std::mt19937 random(55);
    Trials radius;
    Trials x;
    for (int i = 0; i < 100; ++i) {
        const auto image = photographed(clean, disc.noise, random);
        auto request = circleRequest(centre + PixelPoint(1, -0.8), disc.radius + 1.2, Fit::Edge);
        const auto mark = fitMark(image, request);
        ASSERT_TRUE(mark) << mark.error().help;
        ASSERT_TRUE(mark->circle);
        radius.add(mark->circle->radius - disc.radius, std::sqrt(mark->circle->covariance(2, 2)));
        x.add(mark->circle->centre.x() - centre.x(), std::sqrt(mark->circle->covariance(0, 0)));
    }
    EXPECT_LT(std::abs(radius.bias()), 0.02);
    EXPECT_LT(std::abs(x.bias()), 0.02);
    EXPECT_GE(radius.coverage(), 0.85);
    EXPECT_GE(x.coverage(), 0.88);
    const double bound =
        test::stepBound(disc.noise / 120, std::sqrt(disc.blur * disc.blur + 1.0 / 12),
                        2 * 3.14159265 * disc.radius);
    EXPECT_LT(radius.rms(), 1.3 * bound + 0.005) << "bound " << bound;
}

INSTANTIATE_TEST_SUITE_P(Cases, RoundEdge,
                         testing::Values(Disc{"Small", 12, 1.0, 6}, Disc{"Large", 38, 1.0, 8},
                                         Disc{"Soft", 25, 2.0, 6}),
                         [](const auto& row) { return row.param.name; });

TEST(RoundLine, MiddleOfAnInkedRing) {
    const PixelPoint centre(50.3, 49.6);
    const cv::Mat clean = render(
        100, 100,
        [&](double x, double y) {
            return std::abs((PixelPoint(x, y) - centre).norm() - 32.4) < 1.5;
        },
        0.9);
    std::mt19937 random(12);
    const auto image = photographed(clean, 5, random);
    const auto mark = fitMark(image, circleRequest(centre, 34, Fit::LineCentre));
    ASSERT_TRUE(mark) << mark.error().help;
    EXPECT_NEAR(mark->circle->radius, 32.4, 0.06);
    EXPECT_NEAR(mark->circle->centre.x(), centre.x(), 0.06);
    EXPECT_NEAR(*mark->widthPx, 3, 0.4);
}

TEST(RoundEdge, MovedRimPointsCarryTheCirclesCovariance) {
    const PixelPoint centre(50.3, 49.6);
    const cv::Mat clean = render(
        100, 100, [&](double x, double y) { return (PixelPoint(x, y) - centre).norm() < 30; }, 1);
    std::mt19937 random(2);
    const auto mark = fitMark(photographed(clean, 5, random), circleRequest(centre, 31, Fit::Edge));
    ASSERT_TRUE(mark);
    for (const PixelPoint& p : mark->points) {
        EXPECT_NEAR((p - mark->circle->centre).norm(), mark->circle->radius, 1e-9);
    }
    EXPECT_EQ(mark->covariance.rows(), 6);
}

TEST(PlacedCircle, HasTheUncertaintyOfItsPoints) {
    const raster::GreyImage image(cv::Mat(100, 100, CV_8U, cv::Scalar(128)));
    MarkRequest request;
    request.kind = MarkKind::Circle;
    request.points = {{80, 50}, {50, 80}, {20, 50}};
    request.uPx = 0.4;
    const auto mark = fitMark(image, request);
    ASSERT_TRUE(mark);
    EXPECT_NEAR(mark->circle->radius, 30, 1e-9);
    EXPECT_GT(mark->circle->covariance(2, 2), 0);
    request.points[1] = {50, 50};
    const auto straight = fitMark(image, request);
    ASSERT_FALSE(straight);
    EXPECT_EQ(straight.error().code, Code::BadValue);
}

}  // namespace
}  // namespace imaging::mark

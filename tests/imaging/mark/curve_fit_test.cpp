#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"

#include <gtest/gtest.h>

#include <cmath>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;

const PixelPoint kCentre(20.4, 30.7);
constexpr double kRadius = 240.6;

MarkRequest arcRequest(Fit fit) {
    MarkRequest request;
    request.kind = MarkKind::Curve;
    request.fit = fit;
    for (const double t : {0.15, 0.6, 1.1, 1.4}) {
        request.points.push_back(kCentre + (kRadius + (t > 1 ? 1.5 : -1.2)) *
                                               PixelPoint(std::cos(t), std::sin(t)));
    }
    return request;
}

TEST(Curve, AnInkedArcIsFollowedToTheHundredth) {
    const cv::Mat clean = render(
        290, 300,
        [](double x, double y) {
            return std::abs((PixelPoint(x, y) - kCentre).norm() - kRadius) < 1.4;
        },
        0.9);
    std::mt19937 random(17);
    const auto mark = fitMark(photographed(clean, 6, random), arcRequest(Fit::LineCentre));
    ASSERT_TRUE(mark) << mark.error().help;
    ASSERT_GT(mark->points.size(), 45U);
    double bias = 0;
    double squares = 0;
    const auto n = static_cast<double>(mark->points.size());
    for (std::size_t i = 0; i < mark->points.size(); ++i) {
        const PixelPoint away = mark->points[i] - kCentre;
        const double off = away.norm() - kRadius;
        const PixelPoint normal = away.normalized();
        bias += off / n;
        squares += off * off / normal.dot(mark->pointCovariances[i] * normal) / n;
    }
    EXPECT_LT(std::abs(bias), 0.03);
    EXPECT_NEAR(squares, 1, 0.6);
    // From the foot of the first way point to that of the last.
    const PixelPoint first = mark->points.front() - kCentre;
    const PixelPoint last = mark->points.back() - kCentre;
    EXPECT_NEAR(std::atan2(first.y(), first.x()), 0.15, 0.003);
    EXPECT_NEAR(std::atan2(last.y(), last.x()), 1.4, 0.003);
}

TEST(Curve, AnEdgesTraceHasNoBiasFromItsBend) {
    const cv::Mat clean = render(
        290, 300, [](double x, double y) { return (PixelPoint(x, y) - kCentre).norm() < kRadius; },
        2.0);
    std::mt19937 random(18);
    const auto mark = fitMark(photographed(clean, 5, random), arcRequest(Fit::Edge));
    ASSERT_TRUE(mark) << mark.error().help;
    double bias = 0;
    for (const PixelPoint& p : mark->points) {
        bias += ((p - kCentre).norm() - kRadius) / static_cast<double>(mark->points.size());
    }
    EXPECT_LT(std::abs(bias), 0.03);
}

TEST(Curve, AGapIsBridgedAndALostTrailIsRefused) {
    const auto drawn = [](double gap) {
        return render(
            290, 300,
            [gap](double x, double y) {
                const PixelPoint away = PixelPoint(x, y) - kCentre;
                const double t = std::atan2(away.y(), away.x());
                return std::abs(away.norm() - kRadius) < 1.4 && std::abs(t - 0.85) > gap;
            },
            0.9);
    };
    std::mt19937 random(19);
    const auto bridged = fitMark(photographed(drawn(0.02), 5, random), arcRequest(Fit::LineCentre));
    EXPECT_TRUE(bridged) << bridged.error().help;
    const auto lost = fitMark(photographed(drawn(0.15), 5, random), arcRequest(Fit::LineCentre));
    ASSERT_FALSE(lost);
    EXPECT_EQ(lost.error().code, Code::NoFit);
}

}  // namespace
}  // namespace imaging::mark

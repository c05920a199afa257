#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"
#include "tests/imaging/mark/trials.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;
using test::Trials;

const PixelPoint kCentre(70.3, 59.6);
constexpr double kA = 48.2;
constexpr double kB = 30.4;
constexpr double kAngle = 0.4;

/// (x/a)² + (y/b)² of a sheet point, in the ellipse's own axes.
double level(double x, double y, double a, double b) {
    const PixelPoint away(x - kCentre.x(), y - kCentre.y());
    const double u = std::cos(kAngle) * away.x() + std::sin(kAngle) * away.y();
    const double v = -std::sin(kAngle) * away.x() + std::cos(kAngle) * away.y();
    return u * u / (a * a) + v * v / (b * b);
}

MarkRequest ellipseRequest(Fit fit, double from = 0, double to = 2 * std::numbers::pi) {
    MarkRequest request;
    request.kind = MarkKind::Ellipse;
    request.fit = fit;
    for (int i = 0; i < 6; ++i) {
        const double t = from + (to - from) * i / 6;
        const double u = (kA + 1) * std::cos(t);
        const double v = (kB - 0.8) * std::sin(t);
        request.points.push_back(kCentre +
                                 PixelPoint(std::cos(kAngle) * u - std::sin(kAngle) * v + 0.6,
                                            std::sin(kAngle) * u + std::cos(kAngle) * v));
    }
    return request;
}

TEST(EllipseEdge, AxesAreUnbiasedAndHonest) {
    const cv::Mat clean = render(
        140, 120, [](double x, double y) { return level(x, y, kA, kB) < 1; }, 1.2);
    std::mt19937 random(21);
    Trials a;
    Trials b;
    Trials x;
    for (int i = 0; i < 60; ++i) {
        const auto mark = fitMark(photographed(clean, 6, random), ellipseRequest(Fit::Edge));
        ASSERT_TRUE(mark) << mark.error().help;
        ASSERT_TRUE(mark->ellipse);
        const auto& e = *mark->ellipse;
        a.add(e.a - kA, std::sqrt(e.covariance(2, 2)));
        b.add(e.b - kB, std::sqrt(e.covariance(3, 3)));
        x.add(e.centre.x() - kCentre.x(), std::sqrt(e.covariance(0, 0)));
    }
    EXPECT_LT(std::abs(a.bias()), 0.02);
    EXPECT_LT(std::abs(b.bias()), 0.02);
    EXPECT_LT(std::abs(x.bias()), 0.02);
    EXPECT_GE(a.coverage(), 0.85);
    EXPECT_GE(b.coverage(), 0.85);
    EXPECT_GE(x.coverage(), 0.85);
}

TEST(EllipseLine, MiddleOfAnInkedRim) {
    // Between (a ± 1.5, b ± 1.5): nearly a line of 3 px.
    const cv::Mat clean = render(
        140, 120,
        [](double x, double y) {
            return level(x, y, kA + 1.5, kB + 1.5) < 1 && level(x, y, kA - 1.5, kB - 1.5) > 1;
        },
        0.9);
    std::mt19937 random(4);
    const auto mark = fitMark(photographed(clean, 5, random), ellipseRequest(Fit::LineCentre));
    ASSERT_TRUE(mark) << mark.error().help;
    EXPECT_NEAR(mark->ellipse->a, kA, 0.1);
    EXPECT_NEAR(mark->ellipse->b, kB, 0.1);
    EXPECT_NEAR(mark->ellipse->angle, kAngle, 0.01);
    EXPECT_NEAR(*mark->widthPx, 3, 0.4);
}

TEST(EllipseEdge, ShortArcsAndEmptyPaperAreRefused) {
    const raster::GreyImage image(cv::Mat(120, 140, CV_8U, cv::Scalar(128)));
    auto shortArc = ellipseRequest(Fit::None, 0, 1.5);
    EXPECT_EQ(fitMark(image, shortArc).error().code, Code::BadValue);
    EXPECT_EQ(fitMark(image, ellipseRequest(Fit::Edge)).error().code, Code::NoFit);
}

TEST(RepeatedPicks, ScatterIsTheUncertainty) {
    const raster::GreyImage image(cv::Mat(200, 200, CV_8U, cv::Scalar(128)));
    std::mt19937 random(8);
    std::normal_distribution<double> pick(0, 1.2);
    Trials trials;
    for (int trial = 0; trial < 400; ++trial) {
        MarkRequest request;
        request.points = {{100 + pick(random), 100 + pick(random)}};
        for (int i = 0; i < 4; ++i) {
            request.repeats.push_back({{100 + pick(random), 100 + pick(random)}});
        }
        const auto mark = fitMark(image, request);
        ASSERT_TRUE(mark);
        trials.add(mark->points[0].x() - 100, std::sqrt(mark->covariance(0, 0)));
    }
    EXPECT_NEAR(trials.coverage(), 0.95, 0.04);
    MarkRequest request;
    request.points = {{100, 100}};
    request.repeats = {{{100, 100}, {101, 100}}};
    EXPECT_EQ(fitMark(image, request).error().place, "/repeats/0");
}

}  // namespace
}  // namespace imaging::mark

#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"
#include "tests/imaging/mark/trials.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;
using test::Trials;

TEST(Point, GoesToTheCrossingOfTwoDrawnLines) {
    const PixelPoint truth(44.375, 45.625);
    const auto shape = [&](double x, double y) {
        const double dx = x - truth.x();
        const double dy = y - truth.y();
        return std::abs(dy - 0.2 * dx) / std::sqrt(1.04) < 1.5 || std::abs(dx + 0.3 * dy) < 1.5;
    };
    const cv::Mat clean = render(90, 90, shape, 0.8);
    std::mt19937 random(21);
    std::uniform_real_distribution<double> wobble(-3, 3);
    Trials x;
    Trials y;
    for (int i = 0; i < 60; ++i) {
        const auto image = photographed(clean, 5, random);
        MarkRequest request;
        request.fit = Fit::LineCentre;
        request.points = {truth + PixelPoint(wobble(random), wobble(random))};
        const auto mark = fitMark(image, request);
        ASSERT_TRUE(mark) << mark.error().help;
        x.add(mark->points[0].x() - truth.x(), std::sqrt(mark->covariance(0, 0)));
        y.add(mark->points[0].y() - truth.y(), std::sqrt(mark->covariance(1, 1)));
    }
    EXPECT_LT(std::abs(x.bias()), 0.02);
    EXPECT_LT(std::abs(y.bias()), 0.02);
    EXPECT_GE(x.coverage(), 0.85);
    EXPECT_GE(y.coverage(), 0.85);
}

TEST(Point, GoesToTheCornerOfAPlate) {
    const PixelPoint truth(44.375, 45.625);
    const auto shape = [&](double x, double y) { return x < truth.x() && y < truth.y(); };
    const cv::Mat clean = render(90, 90, shape, 1);
    std::mt19937 random(22);
    Trials x;
    for (int i = 0; i < 60; ++i) {
        const auto image = photographed(clean, 5, random);
        MarkRequest request;
        request.fit = Fit::Corner;
        request.points = {truth + PixelPoint(1.5, -2)};
        const auto mark = fitMark(image, request);
        ASSERT_TRUE(mark) << mark.error().help;
        x.add(mark->points[0].x() - truth.x(), std::sqrt(mark->covariance(0, 0)));
    }
    EXPECT_LT(std::abs(x.bias()), 0.02);
    EXPECT_GE(x.coverage(), 0.85);
}

TEST(Point, IsRefusedWhereNothingCrosses) {
    const cv::Mat line = render(
        90, 90, [](double x, double) { return std::abs(x - 45) < 1.5; }, 1);
    std::mt19937 random(23);
    MarkRequest request;
    request.fit = Fit::LineCentre;
    request.points = {{45, 45}};
    const auto single = fitMark(photographed(line, 4, random), request);
    ASSERT_FALSE(single);
    EXPECT_EQ(single.error().code, Code::NoFit);
    const auto empty =
        fitMark(photographed(cv::Mat(90, 90, CV_32F, cv::Scalar(128)), 8, random), request);
    ASSERT_FALSE(empty);
    EXPECT_EQ(empty.error().code, Code::NoFit);
}

TEST(Mark, WrongRequestsAreEachRefused) {
    const raster::GreyImage image(cv::Mat(50, 50, CV_8U, cv::Scalar(128)));
    const auto code = [&](MarkKind kind, Fit fit, std::vector<PixelPoint> points) {
        MarkRequest request;
        request.kind = kind;
        request.fit = fit;
        request.points = std::move(points);
        const auto mark = fitMark(image, request);
        return mark ? std::string("fitted") : std::string(codeName(mark.error().code));
    };
    EXPECT_EQ(code(MarkKind::Point, Fit::None, {{10, 10}}), "fitted");
    EXPECT_EQ(code(MarkKind::Point, Fit::None, {{10, 60}}), "outside-sheet");
    EXPECT_EQ(code(MarkKind::Point, Fit::None, {{1e300, 10}}), "outside-sheet");
    EXPECT_EQ(code(MarkKind::Point, Fit::Edge, {{10, 10}}), "bad-value");
    EXPECT_EQ(code(MarkKind::Segment, Fit::Corner, {{10, 10}, {20, 10}}), "bad-value");
    EXPECT_EQ(code(MarkKind::Segment, Fit::None, {{10, 10}}), "bad-value");
    EXPECT_EQ(code(MarkKind::Segment, Fit::None, {{10, 10}, {10, 10}}), "bad-value");
    EXPECT_EQ(code(MarkKind::Ellipse, Fit::None, {{1, 1}, {2, 1}, {3, 1}, {4, 1}, {5, 1}}),
              "bad-value");
    EXPECT_EQ(code(MarkKind::Segment, Fit::Edge, {{10, 10}, {30, 10}}), "no-fit");
}

TEST(Mark, UnreadablePartsAreNotMeasured) {
    const raster::GreyImage image(cv::Mat(50, 50, CV_8U, cv::Scalar(128)),
                                  {cv::Rect(0, 30, 50, 20)});
    MarkRequest request;
    request.points = {{10, 35}};
    const auto mark = fitMark(image, request);
    ASSERT_FALSE(mark);
    EXPECT_EQ(mark.error().code, Code::OutsideSheet);
    EXPECT_THAT(mark.error().help, testing::HasSubstr("could not be decoded"));
}

TEST(Mark, PlacedMarksHaveHalfAPixelUnlessTold) {
    const raster::GreyImage image(cv::Mat(50, 50, CV_8U, cv::Scalar(128)));
    MarkRequest request;
    request.points = {{10, 10}};
    EXPECT_DOUBLE_EQ(fitMark(image, request)->covariance(0, 0), 0.25);
    request.uPx = 0.3;
    EXPECT_DOUBLE_EQ(fitMark(image, request)->covariance(1, 1), 0.09);
}

}  // namespace
}  // namespace imaging::mark

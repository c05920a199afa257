#include "app/session/fit_draft.h"

#include "app/session/convert.h"
#include "tests/app/session/plan_register.h"

#include <opencv2/core/mat.hpp>

#include <cmath>

namespace planning {
namespace {

using namespace app::session;
using imaging::mark::Fit;
using imaging::raster::GreyImage;

/// A dark bar on light paper: its left edge at x = 39.5, its right edge at x = 139.5 (pixel centres
/// are whole numbers, so an edge between two pixels lies halfway).
GreyImage bar() {
    cv::Mat pixels(100, 180, CV_8U, cv::Scalar(210));
    pixels(cv::Rect(40, 20, 100, 60)).setTo(cv::Scalar(60));
    return GreyImage(pixels);
}

/// A dark disc with its centre at (60, 50), radius 30, each pixel the mean of 8 × 8 samples.
GreyImage disc() {
    cv::Mat pixels(100, 120, CV_8U);
    for (int y = 0; y < pixels.rows; ++y)
        for (int x = 0; x < pixels.cols; ++x) {
            int inside = 0;
            for (int i = 0; i < 64; ++i)
                inside += std::hypot(x + (i % 8 - 3.5) / 8 - 60, y + (i / 8 - 3.5) / 8 - 50) < 30;
            pixels.at<unsigned char>(y, x) = static_cast<unsigned char>(210 - inside * 150 / 64);
        }
    return GreyImage(pixels);
}

MarkDraft roughly(record::MarkKind kind, std::vector<record::PixelPoint> points) {
    MarkDraft draft;
    draft.file = {"f2"};
    draft.kind = kind;
    draft.points = std::move(points);
    return draft;
}

TEST(FitDraft, EndsOfASegmentGoToTheirEdges) {
    auto placed = roughly(record::MarkKind::Segment, {{38, 50}, {141.5, 50}});
    placed.seen = record::SheetSeen{1, 1, 6};
    const auto draft = fitDraft(bar(), placed);
    ASSERT_TRUE(draft) << draft.error().help;
    EXPECT_NEAR(draft->points[0].x, 39.5, 0.05);
    EXPECT_NEAR(draft->points[1].x, 139.5, 0.05);
    EXPECT_EQ(draft->made, record::Made::Edge);
    EXPECT_EQ(draft->covariance.size(), 4U);
    EXPECT_LT(draft->covariance[0][0], 0.01);
    EXPECT_EQ(draft->seen, (record::SheetSeen{180, 100, 6}));
    EXPECT_EQ(draft->file.text, "f2");
}

TEST(FitDraft, ACircleKeepsItsPointsAndGainsAFit) {
    const auto placed = roughly(record::MarkKind::Circle, {{31, 50}, {60, 21}, {89, 51}, {60, 79}});
    const auto draft = fitDraft(disc(), placed);
    ASSERT_TRUE(draft) << draft.error().help;
    EXPECT_EQ(draft->points, placed.points);
    ASSERT_TRUE(draft->fit);
    EXPECT_NEAR(draft->fit->centre.x, 60, 0.05);
    EXPECT_NEAR(draft->fit->centre.y, 50, 0.05);
    EXPECT_NEAR(*draft->fit->radius, 30, 0.05);
    EXPECT_EQ(draft->fit->covariance.size(), 3U);
    EXPECT_TRUE(draft->covariance.empty());
}

TEST(FitDraft, WhatIsOnlyPlacedStaysAsPlaced) {
    const auto placed = roughly(record::MarkKind::Segment, {{38, 50}, {141.5, 50}});
    const auto draft = fitDraft(bar(), placed, {Fit::None, 6});
    ASSERT_TRUE(draft) << draft.error().help;
    EXPECT_EQ(draft->points, placed.points);
    EXPECT_EQ(draft->made, record::Made::Picked);
    EXPECT_TRUE(draft->covariance.empty());
    EXPECT_FALSE(draft->fit);
}

TEST(FitDraft, AFittedDraftCanBeMeasured) {
    auto reg = smallRegister();
    record::Frame frame;
    frame.id = {"g1"};
    frame.file = {"f2"};
    reg.frames.push_back(frame);
    const auto fitted =
        fitDraft(disc(), roughly(record::MarkKind::Circle, {{31, 50}, {60, 21}, {89, 51}}));
    ASSERT_TRUE(fitted) << fitted.error().help;
    MeasureDraft measure;
    measure.mark = *fitted;
    measure.frame = {"g1"};
    measure.name = "wheel diameter";
    measure.quantity = record::DimensionQuantity::Diameter;
    EXPECT_EQ(theOne<record::Mark>(planMeasure(contextOf(reg), measure)).fit, fitted->fit);
}

TEST(FitDraft, RefusesWhereThereIsNothingToFit) {
    const GreyImage blank(cv::Mat(100, 180, CV_8U, cv::Scalar(210)));
    const auto placed = roughly(record::MarkKind::Segment, {{38, 50}, {141.5, 50}});
    const auto nothing = fitDraft(blank, placed);
    ASSERT_FALSE(nothing);
    EXPECT_EQ(nothing.error().code, Code::BadValue);
    EXPECT_EQ(nothing.error().place, "mark/points/0");
    const auto few = fitDraft(bar(), roughly(record::MarkKind::Segment, {{38, 50}}));
    ASSERT_FALSE(few);
    EXPECT_EQ(few.error().code, Code::BadValue);
}

TEST(Convert, KeepsTheSentenceAndPutsThePrefixBeforeThePlace) {
    const imaging::Refusal from{imaging::Code::NoSuchPage, "/page", "there is no page 3"};
    EXPECT_EQ(converted(from, "mark"),
              (Refusal{Code::MissingTarget, "mark/page", "there is no page 3"}));
    EXPECT_EQ(converted({imaging::Code::Unreadable, "x.png", "broken"}).code, Code::BadDocument);
    EXPECT_EQ(converted({imaging::Code::TooLarge, "", ""}).code, Code::TooLarge);
    EXPECT_EQ(converted({imaging::Code::NotAvailable, "", ""}).code, Code::WrongUse);
}

}  // namespace
}  // namespace planning

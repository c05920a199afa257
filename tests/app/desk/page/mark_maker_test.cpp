#include "app/desk/page/mark_maker.h"

#include "tests/app/desk/page/drawn_page.h"

#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using namespace app::desk::page;
using Step = MarkMaker::Step;

std::shared_ptr<const PagePicture> picture(const cv::Mat& pixels) {
    imaging::raster::Raster raster;
    raster.pixels = pixels;
    raster.header.width = pixels.cols;
    raster.header.height = pixels.rows;
    return std::make_shared<const PagePicture>(raster);
}

class DeskMarkMaker : public testing::Test {
  protected:
    void lay(const cv::Mat& pixels, Tool tool) {
        m_maker.setPage({{"f"}, 2}, picture(pixels));
        m_maker.setTool(tool);
    }
    static PointerAt at(double x, double y, bool byHand = false) { return {{x, y}, 1, byHand}; }

    MarkMaker m_maker;
};

TEST_F(DeskMarkMaker, DraggedEndsSnapToTheEdgesOfTheBar) {
    lay(tests::app::page::pageWithBars(400, 200, {{100, 60, 200, 80}}), Tool::Measure);
    EXPECT_EQ(m_maker.press(at(102, 101)), Step::Changed);
    EXPECT_EQ(m_maker.move(at(250, 100)), Step::Changed);
    EXPECT_EQ(m_maker.release(at(297, 100)), Step::Made);
    ASSERT_TRUE(m_maker.draft());
    EXPECT_TRUE(m_maker.snapped());
    EXPECT_TRUE(m_maker.complete());
    EXPECT_EQ(m_maker.draft()->made, record::Made::Edge);
    EXPECT_EQ(m_maker.draft()->page, 2);
    EXPECT_NEAR(m_maker.draft()->points[0].x, 99.5, 0.1);
    EXPECT_NEAR(m_maker.draft()->points[1].x, 299.5, 0.1);
    EXPECT_EQ(m_maker.draft()->covariance.size(), 4U);
}

TEST_F(DeskMarkMaker, PlacedByHandStaysAsPlaced) {
    lay(tests::app::page::pageWithBars(400, 200, {{100, 60, 200, 80}}), Tool::Measure);
    m_maker.press(at(102, 101, true));
    EXPECT_EQ(m_maker.release(at(297, 100, true)), Step::Made);
    EXPECT_FALSE(m_maker.snapped());
    EXPECT_EQ(m_maker.draft()->made, record::Made::Picked);
    EXPECT_EQ(m_maker.draft()->points[0].x, 102);
    ASSERT_TRUE(m_maker.draft()->seen);
    EXPECT_EQ(m_maker.draft()->seen->width, 400);
}

TEST_F(DeskMarkMaker, WhereThereIsNoEdgeItSaysSoAndKeepsThePlace) {
    lay(tests::app::page::pageWithBars(400, 200, {}), Tool::Scale);
    m_maker.press(at(50, 50));
    EXPECT_EQ(m_maker.release(at(250, 60)), Step::Made);
    EXPECT_FALSE(m_maker.snapped());
    EXPECT_FALSE(m_maker.whyNot().isEmpty());
    EXPECT_EQ(m_maker.draft()->points[1].x, 250);
}

TEST_F(DeskMarkMaker, MiddleOfALineIsFoundWhenWanted) {
    lay(tests::app::page::pageWithBars(400, 200, {{100, 20, 6, 160}, {300, 20, 6, 160}}),
        Tool::Scale);
    m_maker.setSnap(Snap::LineCentre);
    m_maker.press(at(103, 100));
    EXPECT_EQ(m_maker.release(at(301, 100)), Step::Made);
    ASSERT_TRUE(m_maker.snapped());
    EXPECT_NEAR(m_maker.draft()->points[0].x, 102.5, 0.1);
    EXPECT_NEAR(m_maker.draft()->points[1].x, 302.5, 0.1);
}

TEST_F(DeskMarkMaker, ClickIsNoDrag) {
    lay(tests::app::page::pageWithBars(400, 200, {}), Tool::Scale);
    m_maker.press(at(50, 50));
    EXPECT_EQ(m_maker.release(at(52, 51)), Step::TooShort);
    EXPECT_FALSE(m_maker.draft());
}

TEST_F(DeskMarkMaker, ThreeClicksOnARimMakeItsCircle) {
    lay(tests::app::page::pageWithDisc(400, 400, 200.3, 190.6, 80), Tool::Circle);
    EXPECT_EQ(m_maker.press(at(121, 191)), Step::Changed);
    EXPECT_EQ(m_maker.release(at(121, 191)), Step::Nothing);
    EXPECT_EQ(m_maker.press(at(202, 112)), Step::Changed);
    EXPECT_EQ(m_maker.move(at(240, 150)), Step::Changed);
    EXPECT_EQ(m_maker.press(at(279, 189)), Step::Made);
    ASSERT_TRUE(m_maker.draft()->fit);
    EXPECT_NEAR(m_maker.draft()->fit->centre.x, 200.3, 0.1);
    EXPECT_NEAR(m_maker.draft()->fit->centre.y, 190.6, 0.1);
    EXPECT_NEAR(m_maker.draft()->fit->radius.value_or(0), 80, 0.1);
}

TEST_F(DeskMarkMaker, DroppedMarkIsGoneAndTheNextBeginsAfresh) {
    lay(tests::app::page::pageWithBars(400, 200, {{100, 60, 200, 80}}), Tool::Measure);
    m_maker.press(at(102, 101));
    m_maker.move(at(200, 100));
    m_maker.drop();
    EXPECT_FALSE(m_maker.draft());
    EXPECT_EQ(m_maker.move(at(250, 100)), Step::Nothing);
    EXPECT_EQ(m_maker.release(at(250, 100)), Step::Nothing);
}

TEST_F(DeskMarkMaker, DragOutsideThePageMakesNothing) {
    lay(tests::app::page::pageWithBars(400, 200, {}), Tool::Measure);
    m_maker.press(at(-60, 50));
    EXPECT_NE(m_maker.release(at(-20, 50)), Step::Made);
    EXPECT_FALSE(m_maker.draft());
    EXPECT_FALSE(m_maker.whyNot().isEmpty());
}

}  // namespace

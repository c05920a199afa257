#include "app/desk/page/page_viewport.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

namespace {

using app::desk::page::PageViewport;

constexpr double kPixel = 1e-9;

PageViewport viewport(const QSizeF& page, const QSizeF& view) {
    PageViewport made;
    made.setView(view);
    made.setPage(page);
    return made;
}

double distance(const QPointF& a, const QPointF& b) {
    return std::hypot(a.x() - b.x(), a.y() - b.y());
}

TEST(PageViewport, WholePageLiesCentredInsideTheView) {
    const auto v = viewport({5000, 3000}, {1000, 800});
    const QRectF page = v.toView(v.pageBox());
    EXPECT_NEAR(page.center().x(), 500, kPixel);
    EXPECT_NEAR(page.center().y(), 400, kPixel);
    EXPECT_NEAR(page.left(), PageViewport::kMargin, kPixel);
    EXPECT_TRUE(v.wholeShown());
}

TEST(PageViewport, OriginIsTheCentreOfTheFirstPixel) {
    const auto v = viewport({10, 10}, {10 + 2 * PageViewport::kMargin, 200});
    EXPECT_NEAR(v.zoom(), 1, kPixel);
    EXPECT_NEAR(v.toView(QPointF(0, 0)).x(), PageViewport::kMargin + 0.5, kPixel);
}

RC_GTEST_PROP(PageViewport, ZoomingKeepsThePixelUnderThePointer, ()) {
    const auto side = [] { return static_cast<double>(*rc::gen::inRange(1, 20000)); };
    const auto room = [] { return static_cast<double>(*rc::gen::inRange(100, 3000)); };
    auto v = viewport({side(), side()}, {room(), room()});
    for (int i = 0; i < 12; ++i) {
        const QPointF at(*rc::gen::inRange(0, 3000), *rc::gen::inRange(0, 3000));
        const QPointF before = v.toPage(at);
        v.zoomAt(at, *rc::gen::element(0.1, 0.5, 0.8, 1.25, 2.0, 7.3));
        RC_ASSERT(distance(v.toPage(at), before) * v.zoom() < 1e-6);
        RC_ASSERT(distance(v.toPage(at), before) < 1e-9 * std::max(1.0, 1 / v.zoom()));
    }
}

RC_GTEST_PROP(PageViewport, ViewAndPageAreInverse, ()) {
    auto v = viewport({5000, 3000}, {1280, 800});
    v.zoomAt(QPointF(*rc::gen::inRange(0, 1280), *rc::gen::inRange(0, 800)),
             *rc::gen::element(0.3, 1.0, 4.0, 40.0));
    const QPointF page(*rc::gen::inRange(-10, 5010) + 0.25, *rc::gen::inRange(-10, 3010) + 0.75);
    RC_ASSERT(distance(v.toPage(v.toView(page)), page) < kPixel);
}

RC_GTEST_PROP(PageViewport, PanningNeverLosesThePage, ()) {
    auto v = viewport({5000, 3000}, {1280, 800});
    v.zoomAt({640, 400}, *rc::gen::element(1.0, 3.0, 30.0));
    for (int i = 0; i < 8; ++i)
        v.panBy({static_cast<double>(*rc::gen::inRange(-9000, 9000)),
                 static_cast<double>(*rc::gen::inRange(-9000, 9000))});
    RC_ASSERT(v.pageBox().adjusted(-1e-6, -1e-6, 1e-6, 1e-6).contains(v.visible().center()));
}

TEST(PageViewport, ZoomStopsAtItsLimits) {
    auto v = viewport({5000, 3000}, {1280, 800});
    v.zoomAt({0, 0}, 1e6);
    EXPECT_EQ(v.zoom(), PageViewport::kGreatest);
    v.zoomAt({0, 0}, 1e-6);
    EXPECT_LT(v.zoom(), 0.2);
    EXPECT_GT(v.zoom(), 0.1);
}

TEST(PageViewport, ResizingKeepsWholeWholeAndElseTheMiddle) {
    auto v = viewport({5000, 3000}, {1280, 800});
    v.setView({640, 400});
    EXPECT_TRUE(v.wholeShown());
    EXPECT_NEAR(v.toView(v.pageBox()).center().x(), 320, kPixel);
    v.zoomAt({100, 100}, 9);
    const QPointF middle = v.visible().center();
    v.setView({900, 700});
    EXPECT_LT(distance(v.visible().center(), middle), kPixel);
}

TEST(PageViewport, ChosenMarkIsBroughtCloseButNotBeyondFourHundredPercent) {
    auto v = viewport({5000, 3000}, {1280, 800});
    const QRectF box(QPointF(1000, 1000), QPointF(1400, 1010));
    EXPECT_TRUE(v.showsWell(box));
    v.showClosely(box);
    EXPECT_NEAR(v.toView(box).width(), 0.4 * 1280, 1e-6);
    EXPECT_TRUE(v.showsWell(box));
    const QRectF dot(QPointF(2000, 2000), QPointF(2001, 2001));
    EXPECT_FALSE(v.showsWell(dot));
    v.showClosely(dot);
    EXPECT_EQ(v.zoom(), 4);
}

TEST(PageViewport, GlassEnlargesAboutThePointer) {
    auto v = viewport({5000, 3000}, {1280, 800});
    v.zoomAt({0, 0}, 1e6);
    const auto glass = v.magnified({300, 200}, 4);
    EXPECT_EQ(glass.zoom(), 4 * v.zoom());
    EXPECT_LT(distance(glass.toPage({300, 200}), v.toPage({300, 200})), kPixel);
}

}  // namespace

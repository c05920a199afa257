#include "app/report/figure/thread_figure.h"

#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

namespace {

using app::report::figure::FigureStyle;
using app::report::figure::layoutThread;
using evidence::judgement::Thread;
using evidence::judgement::ThreadStage;
using evidence::record::Grade;

/// Two photographs' readings of one value, one through a scale that carries most of the doubt.
Thread sampleThread() {
    Thread thread;
    thread.on = "d1";
    thread.nodes = {
        {"s1", ThreadStage::Source, "Broadside photograph", "Museum 14/3", Grade::TakenOff, false,
         false, false},
        {"s2", ThreadStage::Source, "Ledger", "Record Office", Grade::Figured, false, false, false},
        {"m1", ThreadStage::Mark, "Sill", "edge fit", Grade::TakenOff, false, false, false},
        {"g1", ThreadStage::Scale, "Gauge of the rails", "36 in, our guess", Grade::OurCall, true,
         false, false},
        {"r1", ThreadStage::Reading, "scaled", "3'-7 5/16\"", Grade::TakenOff, false, false, false},
        {"r2", ThreadStage::Reading, "stated", "3'-7\"", Grade::Figured, false, true, false},
        {"d1", ThreadStage::Value, "Sill height", "3'-7 1/4\"", Grade::TakenOff, false, false,
         false}};
    thread.links = {{0, 2, 0.1}, {2, 4, 0.1}, {3, 4, 0.7}, {1, 5, 0.2}, {4, 6, 0.8}, {5, 6, 0.0}};
    return thread;
}

TEST(ThreadFigure, PutsSourcesLeftAndTheValueRight) {
    const Thread thread = sampleThread();
    const auto layout = layoutThread(thread, 1000, FigureStyle{});
    ASSERT_EQ(layout.nodes.size(), thread.nodes.size());
    for (const auto& link : thread.links)
        EXPECT_LT(layout.nodes[link.from].right(), layout.nodes[link.to].left());
    EXPECT_NEAR(layout.nodes.back().right(), 1000, 0.5);
    EXPECT_NEAR(layout.nodes.front().left(), 0, 0.5);
}

TEST(ThreadFigure, NodesNeverOverlap) {
    const auto layout = layoutThread(sampleThread(), 600, FigureStyle{});
    for (std::size_t i = 0; i < layout.nodes.size(); ++i)
        for (std::size_t k = i + 1; k < layout.nodes.size(); ++k)
            EXPECT_FALSE(layout.nodes[i].intersects(layout.nodes[k])) << i << " and " << k;
}

TEST(ThreadFigure, WidthsFollowTheShareOfTheDoubt) {
    const auto layout = layoutThread(sampleThread(), 1000, FigureStyle{});
    EXPECT_NEAR(layout.widths[2] / layout.widths[0], 7.0, 1e-9);
    EXPECT_LT(layout.widths[5], layout.widths[0]);
    EXPECT_GT(layout.widths[5], 0);
}

TEST(ThreadFigure, FindsTheNodeUnderThePointer) {
    const auto layout = layoutThread(sampleThread(), 1000, FigureStyle{});
    EXPECT_EQ(app::report::figure::nodeAt(layout, layout.nodes[3].center()), std::size_t{3});
    EXPECT_FALSE(app::report::figure::nodeAt(layout, QPointF(-5, -5)));
}

TEST(ThreadFigure, AnEmptyThreadDrawsNothing) {
    const auto layout = layoutThread(Thread{}, 500, FigureStyle{});
    EXPECT_TRUE(layout.nodes.empty());
    EXPECT_TRUE(layout.size.isEmpty());
}

TEST(ThreadFigure, DrawsAGuessBrokenAndAFirmFlowWhole) {
    Thread thread = sampleThread();
    const FigureStyle style;
    const auto layout = layoutThread(thread, 1000, style);
    QImage image(1000, static_cast<int>(layout.size.height()) + 1, QImage::Format_RGB32);
    image.fill(style.palette.paper);
    QPainter painter(&image);
    app::report::figure::drawThread(painter, thread, layout, style);
    painter.end();
    const auto painted = [&](std::size_t link) {
        int hits = 0;
        const int samples = 200;
        for (int i = 0; i < samples; ++i) {
            const QPointF p = layout.links[link].pointAtPercent((i + 0.5) / samples);
            hits += image.pixelColor(p.toPoint()) != style.palette.paper ? 1 : 0;
        }
        return static_cast<double>(hits) / samples;
    };
    EXPECT_GT(painted(4), 0.95);  // the reading's own flow
    EXPECT_LT(painted(2), 0.85);  // the guessed scale
    EXPECT_GT(painted(2), 0.2);
}

}  // namespace

#include "app/desk/page/page_marks.h"

#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using namespace app::desk::page;
using app::session::Snapshot;

record::Mark segment(const char* id, record::PixelPoint from, record::PixelPoint to) {
    record::Mark mark;
    mark.id = {id};
    mark.file = {"f"};
    mark.kind = record::MarkKind::Segment;
    mark.points = {from, to};
    return mark;
}

std::shared_ptr<Snapshot> someMarks() {
    auto snapshot = std::make_shared<Snapshot>();
    auto& reg = snapshot->reg;
    reg.marks = {segment("long", {0, 0}, {400, 0}), segment("short", {100, 1}, {160, 1}),
                 segment("aside", {0, 50}, {50, 50}), segment("other", {0, 90}, {50, 90})};
    reg.marks[2].setAside = "smudged";
    reg.marks[3].page = 2;
    record::Dimension width;
    width.id = {"d"};
    width.code = "D7";
    width.name = "Hoop width";
    reg.dimensions = {width};
    record::Reading reading;
    reading.id = {"r"};
    reading.of = {"d"};
    reading.mark = record::MarkId{"short"};
    reg.readings = {reading};
    record::Frame frame;
    frame.id = {"g"};
    frame.file = {"f"};
    frame.references.push_back({{"long"}, {}, {}, {}});
    frame.references[0].length.value = std::string("5'-3\"");
    reg.frames = {frame};
    return snapshot;
}

PageViewport plain() {
    PageViewport viewport;
    viewport.setView(QSizeF(500 + 2 * PageViewport::kMargin, 500 + 2 * PageViewport::kMargin));
    viewport.setPage(QSizeF(500, 500));
    return viewport;
}

TEST(PageMarks, AreThoseOfThePageWithTheirUseAndLabel) {
    const auto found = marksOf(someMarks(), nullptr, {{"f"}, 1});
    ASSERT_EQ(found.marks.size(), 2U);
    EXPECT_EQ(found.find({"long"})->use, MarkUse::Reference);
    EXPECT_EQ(found.find({"long"})->label, QStringLiteral("5'-3\""));
    EXPECT_EQ(found.find({"short"})->use, MarkUse::Measured);
    EXPECT_EQ(found.find({"short"})->label, QStringLiteral("D7"));
    EXPECT_EQ(found.find({"short"})->words, QStringLiteral("D7 Hoop width"));
    EXPECT_EQ(marksOf(someMarks(), nullptr, {{"f"}, 2}).marks.size(), 1U);
}

TEST(PageMarks, OneSetAsideIsShownOnlyWhenChosen) {
    EXPECT_EQ(marksOf(someMarks(), nullptr, {{"f"}, 1}).find({"aside"}), nullptr);
    EXPECT_NE(marksOf(someMarks(), nullptr, {{"f"}, 1}, {"aside"}).find({"aside"}), nullptr);
}

TEST(PageMarks, PointerHitsTheNearestAndOfEqualsTheShorter) {
    const auto found = marksOf(someMarks(), nullptr, {{"f"}, 1});
    const auto viewport = plain();
    const auto hit = [&](double x, double y) {
        const auto* mark = markAt(found.marks, viewport, viewport.toView(QPointF(x, y)));
        return mark ? mark->mark->id.text : std::string();
    };
    EXPECT_EQ(hit(130, 1), "short");
    EXPECT_EQ(hit(130, 0.4), "short");
    EXPECT_EQ(hit(300, 2), "long");
    EXPECT_EQ(hit(300, 40), "");
}

TEST(PageMarks, ReachIsTheSameOnTheScreenAtAnyZoom) {
    const auto found = marksOf(someMarks(), nullptr, {{"f"}, 1});
    auto viewport = plain();
    viewport.zoomAt(viewport.toView(QPointF(300, 0)), 16);
    const QPointF on = viewport.toView(QPointF(300, 0));
    EXPECT_NE(markAt(found.marks, viewport, on + QPointF(0, 5)), nullptr);
    EXPECT_EQ(markAt(found.marks, viewport, on + QPointF(0, 8)), nullptr);
}

TEST(PageMarks, RimOfACircleIsHitNotItsMiddle) {
    record::Mark circle = segment("c", {100, 100}, {150, 150});
    circle.kind = record::MarkKind::Circle;
    circle.points = {{100, 50}, {150, 100}, {100, 150}};
    const std::vector<PageMark> marks{{&circle, MarkUse::Loose, {}, {}}};
    const auto viewport = plain();
    EXPECT_NE(markAt(marks, viewport, viewport.toView(QPointF(50, 100))), nullptr);
    EXPECT_EQ(markAt(marks, viewport, viewport.toView(QPointF(100, 100))), nullptr);
}

}  // namespace

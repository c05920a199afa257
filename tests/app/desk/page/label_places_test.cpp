#include "app/desk/page/label_places.h"

#include <QFont>
#include <gtest/gtest.h>

#include <algorithm>
#include <deque>

namespace {

namespace record = evidence::record;

using namespace app::desk::page;

class LabelPlaces : public testing::Test {
  protected:
    LabelPlaces() {
        m_viewport.setView(
            QSizeF(500 + 2 * PageViewport::kMargin, 500 + 2 * PageViewport::kMargin));
        m_viewport.setPage(QSizeF(500, 500));
    }
    void add(const char* id, record::PixelPoint from, record::PixelPoint to) {
        record::Mark mark;
        mark.id = {id};
        mark.kind = record::MarkKind::Segment;
        mark.points = {from, to};
        m_records.push_back(mark);
        m_marks.push_back({&m_records.back(), MarkUse::Measured, QString::fromLatin1(id), {}});
    }
    [[nodiscard]] std::vector<Plate> places(const std::vector<record::MarkId>& first = {}) const {
        return labelPlaces(m_marks, m_viewport, m_view, QFontMetricsF(QFont()), first);
    }
    static bool has(const std::vector<Plate>& plates, const char* id) {
        return std::ranges::count(plates, record::MarkId{id}, &Plate::mark) == 1;
    }

    QRectF m_view{0, 0, 524, 524};
    PageViewport m_viewport;
    std::deque<record::Mark> m_records;
    std::vector<PageMark> m_marks;
};

TEST_F(LabelPlaces, NoneLiesUponAnotherNorBeyondTheView) {
    for (int i = 0; i < 12; ++i)
        add(("D" + std::to_string(10 + i)).c_str(), {20.0 + i, 200.0 + 6 * i},
            {400, 200.0 + 6 * i});
    const auto plates = places();
    EXPECT_GT(plates.size(), 3U);
    for (std::size_t i = 0; i < plates.size(); ++i) {
        EXPECT_TRUE(m_view.contains(plates[i].box));
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(plates[i].box.intersects(plates[j].box));
    }
}

TEST_F(LabelPlaces, ShortMarkHasALabelOnlyWhereItIsLookedAt) {
    add("D1", {100, 100}, {104, 100});
    EXPECT_TRUE(places().empty());
    EXPECT_TRUE(has(places({{"D1"}}), "D1"));
}

TEST_F(LabelPlaces, LabelStandsBesideAStandingLineAndAboveALyingOne) {
    add("D1", {100, 100}, {300, 100});
    add("D2", {400, 100}, {400, 300});
    const auto plates = places();
    ASSERT_EQ(plates.size(), 2U);
    for (const Plate& plate : plates) {
        if (plate.words == QStringLiteral("D1"))
            EXPECT_LT(plate.box.bottom(), m_viewport.toView(QPointF(0, 100)).y());
        else
            EXPECT_GT(plate.box.left(), m_viewport.toView(QPointF(400, 0)).x());
    }
}

TEST_F(LabelPlaces, MarkThatReachesBeyondTheViewIsLabelledWhereItIsSeen) {
    m_viewport.zoomAt(m_viewport.toView(QPointF(10, 10)), 8);
    add("D1", {0, 10}, {480, 10});
    const auto plates = places();
    ASSERT_EQ(plates.size(), 1U);
    EXPECT_TRUE(m_view.contains(plates[0].box));
}

}  // namespace

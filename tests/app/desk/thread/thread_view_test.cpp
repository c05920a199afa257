#include "app/desk/thread/thread_view.h"

#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QSignalSpy>
#include <QTest>
#include <QToolTip>
#include <gtest/gtest.h>

namespace {

using app::desk::thread::ThreadView;
using evidence::record::AnyId;

class View : public testing::Test {
  protected:
    void SetUp() override {
        const auto judged = tests::app::judged(tests::app::smallTrolley().reg);
        m_view.setRoom({800, 400});
        m_view.show(evidence::judgement::threadOf({"d4"}, judged->snapshot->reg, judged->analysis));
    }

    ThreadView m_view;
};

TEST_F(View, FillsItsWidthAndIsAsTallAsItMustBe) {
    EXPECT_NEAR(m_view.width(), 800, 2);
    EXPECT_GT(m_view.height(), 50);
    m_view.setRoom({100, 400});
    EXPECT_GT(m_view.width(), 300) << "boxes stay legible; the scroll area scrolls";
}

TEST_F(View, AClickOnANodeChoosesItsRecord) {
    QSignalSpy chosen(&m_view, &ThreadView::nodeChosen);
    const auto reading = m_view.placeOf({"r2"});
    ASSERT_TRUE(reading);
    QTest::mouseClick(&m_view, Qt::LeftButton, {}, reading->center());
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].value<AnyId>().text, "r2");
    QTest::mouseClick(&m_view, Qt::LeftButton, {}, QPoint(1, 1));
    EXPECT_EQ(chosen.size(), 1) << "beside the nodes nothing is chosen";
}

TEST_F(View, ArrowKeysWalkAlongTheThread) {
    QSignalSpy chosen(&m_view, &ThreadView::nodeChosen);
    m_view.markChosen({"d4"});
    QTest::keyClick(&m_view, Qt::Key_Left);
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].value<AnyId>().text, "l1");
    m_view.markChosen({"l1"});
    QTest::keyClick(&m_view, Qt::Key_Right);
    ASSERT_EQ(chosen.size(), 2);
    EXPECT_EQ(chosen[1][0].value<AnyId>().text, "d4");
}

TEST_F(View, GathersTheStrandsThatCarryLeastWhereThereIsNoRoom) {
    testsupport::RegisterBuilder b;
    b.source("s1", "General arrangement");
    b.dimension("d1", "Sill");
    for (int i = 0; i < 8; ++i)
        b.reading("r" + std::to_string(i), "d1", evidence::record::Basis::Figured, "s1",
                  testsupport::RegisterBuilder::number(40), 0.1 + 0.1 * i);
    const auto judged = tests::app::judged(b.reg);
    m_view.setRoom({800, 900});
    m_view.show(evidence::judgement::threadOf({"d1"}, judged->snapshot->reg, judged->analysis));
    EXPECT_FALSE(m_view.leavesStrandsOut());
    m_view.setRoom({800, 260});
    ASSERT_TRUE(m_view.leavesStrandsOut());
    EXPECT_LE(m_view.height(), 260);
    EXPECT_TRUE(m_view.holds({"r7"})) << "what is gathered still belongs to the thread";
    EXPECT_FALSE(m_view.placeOf({"r7"}));
    QSignalSpy wanted(&m_view, &ThreadView::allStrandsWanted);
    QSignalSpy chosen(&m_view, &ThreadView::nodeChosen);
    const auto more = m_view.placeOf({"d1/more-3"});
    ASSERT_TRUE(more);
    QTest::mouseClick(&m_view, Qt::LeftButton, {}, more->center());
    EXPECT_EQ(wanted.size(), 1);
    EXPECT_TRUE(chosen.isEmpty());
    m_view.setStrands(app::desk::thread::Strands::All);
    EXPECT_TRUE(m_view.placeOf({"r7"}));
}

TEST_F(View, KnowsWhichRecordsItHolds) {
    EXPECT_TRUE(m_view.holds({"r2"}));
    EXPECT_TRUE(m_view.holds({"l1"}));
    EXPECT_FALSE(m_view.holds({"r1"}));
    EXPECT_FALSE(m_view.holds({}));
}

}  // namespace

#include "app/desk/thread/thread_panel.h"

#include "app/desk/thread/interval_view.h"
#include "app/desk/thread/thread_view.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QLabel>
#include <QTableView>
#include <QTest>
#include <QTextBrowser>
#include <QToolButton>
#include <gtest/gtest.h>

namespace {

using namespace app::desk::thread;

class Panel : public testing::Test {
  protected:
    Panel()
        : m_desk(tests::app::smallTrolley().reg),
          m_panel(m_desk.open(), m_desk.analyst(), m_desk.selection()) {
        m_panel.resize(1200, 300);
        m_panel.show();
    }

    template <class Widget>
    Widget& child(const char* name) {
        auto* found = m_panel.findChild<Widget*>(QLatin1String(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    ThreadView& view() { return child<ThreadView>("threadFigure"); }
    QString head() { return child<QLabel>("threadHead").text(); }
    void clickOn(const char* record) {
        const auto place = view().placeOf({record});
        ASSERT_TRUE(place) << record;
        QTest::mouseClick(&view(), Qt::LeftButton, {}, place->center());
    }

    tests::app::DeskOnARegister m_desk;
    ThreadPanel m_panel;
};

TEST_F(Panel, SaysWhatToDoUntilASizeIsChosen) {
    m_desk.waitForAnalysis();
    EXPECT_TRUE(child<QLabel>("threadInstead").isVisible());
    EXPECT_TRUE(child<QLabel>("threadInstead").text().startsWith("Choose a size"));
    m_desk.selection().choose({"d1"});
    EXPECT_FALSE(child<QLabel>("threadInstead").isVisible());
    EXPECT_TRUE(head().contains("Length over headstocks"));
}

TEST_F(Panel, ShowsTheThreadTheReadingsAndTheWordsOfTheChosenSize) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"d3"});
    EXPECT_EQ(view().thread().on, "d3");
    const auto& plot = child<IntervalView>("intervalPlot").plot();
    ASSERT_EQ(plot.readings.size(), 2U);
    EXPECT_EQ(plot.readings[0].value, 3.5);
    EXPECT_NEAR(*plot.readings[0].high - *plot.readings[0].low, 2 * 1.96 * 0.02, 1e-9);
    ASSERT_TRUE(plot.adjusted);
    EXPECT_TRUE(child<QTextBrowser>("threadWords").toPlainText().contains("Ruling."));
}

TEST_F(Panel, AClickOnANodeChoosesItsRecordAndKeepsTheThread) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"d4"});
    clickOn("r2");  // our guess of the sill, another size
    EXPECT_EQ(m_desk.selection().now().record.text, "r2");
    EXPECT_EQ(m_desk.selection().now().size.text, "d2");
    EXPECT_EQ(view().thread().on, "d4");
    m_desk.selection().choose({"r3"});  // not in this thread
    EXPECT_EQ(view().thread().on, "d3");
    clickOn("s2");  // a source has no size of its own
    EXPECT_EQ(m_desk.selection().now().record.text, "s2");
    EXPECT_EQ(view().thread().on, "d3");
}

TEST_F(Panel, FollowsTheRegister) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"d1"});
    const auto before = m_desk.open().snapshot()->reg.dimensions[0];
    auto after = before;
    after.name = "Length over all";
    m_desk.perform({"rename", {{before, after}}});
    m_desk.waitForAnalysis();
    EXPECT_TRUE(head().contains("Length over all"));
    EXPECT_EQ(view().thread().on, "d1");
}

TEST_F(Panel, ShowsAParticularWithoutAPlot) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"q1"});
    EXPECT_TRUE(head().contains("white oak"));
    EXPECT_FALSE(child<IntervalView>("intervalPlot").isVisible());
    EXPECT_FALSE(child<QToolButton>("expertFold").isEnabled());
}

TEST_F(Panel, UnfoldsTheFiguresForExperts) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"d3"});
    auto& table = child<QTableView>("expertTable");
    EXPECT_FALSE(table.isVisible());
    child<QToolButton>("expertFold").click();
    ASSERT_TRUE(table.isVisible());
    EXPECT_FALSE(view().isVisible());
    const auto second = table.model()->index(1, 0);
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, table.visualRect(second).center());
    EXPECT_EQ(m_desk.selection().now().record.text, "r4");
}

}  // namespace

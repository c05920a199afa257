#include "app/desk/page/page_panel.h"

#include "app/desk/page/page_view.h"
#include "evidence-core/record/lookup.h"
#include "tests/app/desk/page/drawn_page.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QSignalSpy>
#include <QTest>
#include <QWheelEvent>
#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using app::desk::page::PagePanel;
using app::desk::page::PageView;
using app::desk::page::Tool;
using tests::app::page::Desk;

class DeskPagePanel : public testing::Test {
  protected:
    DeskPagePanel() : m_desk(m_folder / "archive") {
        m_panel = std::make_unique<PagePanel>(*m_desk.open, *m_desk.analyst, *m_desk.selection);
        m_panel->resize(900, 640);
        m_panel->show();
        m_view = m_panel->findChild<PageView*>(QStringLiteral("pageView"));
    }

    /// A bar of 400 × 100 px whose left edge lies at 199.5, and one of 240 px below it.
    void layBars() {
        const auto file = m_folder / "bars.png";
        tests::app::page::writePage(
            file,
            tests::app::page::pageWithBars(800, 500, {{200, 100, 400, 100}, {200, 300, 240, 100}}));
        layPage(file);
    }
    void layPage(const std::filesystem::path& file) {
        m_desk.takeIn(file);
        ASSERT_TRUE(QTest::qWaitFor([&] { return text("pageTitle").contains(u"S"); }));
        ASSERT_TRUE(QTest::qWaitFor([&] { return m_view->cursor().shape() != Qt::ArrowCursor; }));
    }

    [[nodiscard]] QString text(const char* name) const {
        return m_panel->findChild<QLabel*>(QString::fromLatin1(name))->text();
    }
    template <class Widget>
    [[nodiscard]] Widget* field(const char* name) const {
        return m_panel->findChild<Widget*>(QString::fromLatin1(name));
    }
    [[nodiscard]] QPoint seen(double x, double y) const {
        return m_view->viewport().toView(QPointF(x, y)).toPoint();
    }
    void moveTo(const QPoint& at, Qt::KeyboardModifiers keys = {}) {
        QMouseEvent move(QEvent::MouseMove, QPointF(at), QPointF(m_view->mapToGlobal(at)),
                         Qt::NoButton, Qt::LeftButton, keys);
        QApplication::sendEvent(m_view, &move);
    }
    void drag(const QPointF& from, const QPointF& to, Qt::KeyboardModifiers keys = {}) {
        const QPoint a = seen(from.x(), from.y());
        const QPoint b = seen(to.x(), to.y());
        QTest::mousePress(m_view, Qt::LeftButton, keys, a);
        moveTo((a + b) / 2, keys);
        moveTo(b, keys);
        QTest::mouseRelease(m_view, Qt::LeftButton, keys, b);
    }
    /// The upper bar is 50 in long: 8 px to the inch.
    void setScale() {
        m_panel->setTool(Tool::Scale);
        drag({202, 150}, {597, 150});
        QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("4 ft 2 in"));
        QTest::keyClicks(field<QLineEdit>("plusMinusField"), QStringLiteral("1/16"));
        QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
        m_desk.waitUntilJudged();
    }
    [[nodiscard]] const record::Register& reg() const { return m_desk.open->snapshot()->reg; }

    test::ScratchFolder m_folder;
    Desk m_desk;
    std::unique_ptr<PagePanel> m_panel;
    PageView* m_view = nullptr;
};

TEST_F(DeskPagePanel, HeaderNamesTheSourceAndSaysThatThereIsNoScale) {
    layBars();
    m_desk.waitUntilJudged();
    EXPECT_EQ(text("pageTitle").toStdString(), "S1 bars.png");
    EXPECT_EQ(text("pageScale").toStdString(), "no scale yet");
}

TEST_F(DeskPagePanel, DraggedScaleMakesMarkAndScaleOfWhatWasTyped) {
    layBars();
    setScale();
    ASSERT_EQ(reg().marks.size(), 1U);
    ASSERT_EQ(reg().frames.size(), 1U);
    EXPECT_EQ(reg().marks[0].made, record::Made::Edge);
    EXPECT_NEAR(reg().marks[0].points[0].x, 199.5, 0.1);
    EXPECT_NEAR(reg().marks[0].points[1].x, 599.5, 0.1);
    const auto& length = reg().frames[0].references.at(0).length;
    EXPECT_EQ(std::get<std::string>(*length.value), "4 ft 2 in");
    EXPECT_EQ(length.basis, record::Basis::Assumed);
    EXPECT_NEAR(length.halfWidth.value_or(0), 0.0625, 1e-12);
    EXPECT_EQ(m_desk.selection->now().mark, reg().marks[0].id);
    EXPECT_TRUE(text("pageScale").contains(QStringLiteral("8.0")))
        << text("pageScale").toStdString();
}

TEST_F(DeskPagePanel, TradeWordsAreAskedAboutBeforeTheyMakeAScale) {
    layBars();
    m_panel->setTool(Tool::Scale);
    drag({202, 150}, {597, 150});
    EXPECT_FALSE(field<QComboBox>("meaningField")->isVisible());
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("16 gauge"));
    auto* meaning = field<QComboBox>("meaningField");
    ASSERT_TRUE(meaning->isVisible());
    EXPECT_EQ(meaning->count(), 7);  // six systems, and none chosen yet
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    EXPECT_TRUE(reg().frames.empty());
    EXPECT_TRUE(field<QWidget>("scaleField")->isVisible());
    meaning->setCurrentIndex(meaning->findData(QStringLiteral("swg-16")));
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    ASSERT_EQ(reg().frames.size(), 1U);
    const auto& length = reg().frames[0].references.at(0).length;
    EXPECT_EQ(length.tableRow, "swg-16");
    EXPECT_EQ(length.u, 0.00111);
    EXPECT_NE(length.reason->find("16 gauge"), std::string::npos);
}

TEST_F(DeskPagePanel, KnownThingIsPickedFromTheTables) {
    layBars();
    m_panel->setTool(Tool::Scale);
    drag({202, 150}, {597, 150});
    field<QLineEdit>("lengthField")
        ->setText(QStringLiteral("Standard railway gauge 4 ft 8 1/2 in (rg-standard)"));
    const auto* remark = field<QWidget>("scaleField")->findChild<QLabel*>(QStringLiteral("remark"));
    EXPECT_TRUE(remark->text().contains(QStringLiteral("inner faces of rail heads")))
        << remark->text().toStdString();
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    ASSERT_EQ(reg().frames.size(), 1U);
    EXPECT_EQ(reg().frames[0].references.at(0).length.tableRow, "rg-standard");
}

TEST_F(DeskPagePanel, DraggedMeasureMakesTheDimensionWithItsValueAndChoosesIt) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Measure);
    drag({203, 350}, {437, 350});
    QTest::keyClicks(field<QLineEdit>("nameField"), QStringLiteral("Sill length"));
    QTest::keyClicks(field<QLineEdit>("componentField"), QStringLiteral("Body/Sill"));
    QTest::keyClick(field<QLineEdit>("nameField"), Qt::Key_Return);
    ASSERT_EQ(reg().dimensions.size(), 1U);
    EXPECT_EQ(reg().dimensions[0].name, "Sill length");
    EXPECT_EQ(reg().dimensions[0].component, "Body/Sill");
    ASSERT_EQ(reg().readings.size(), 1U);
    EXPECT_EQ(reg().readings[0].mark, reg().marks.at(1).id);
    EXPECT_EQ(reg().readings[0].frame, reg().frames.at(0).id);
    EXPECT_EQ(m_desk.selection->now().size, record::any(reg().dimensions[0].id));
    EXPECT_FALSE(field<QWidget>("measureField")->isVisible());
    m_desk.waitUntilJudged();
    const auto& results = m_desk.analyst->judged()->analysis.dimensions;
    ASSERT_EQ(results.size(), 1U);
    EXPECT_NEAR(results[0].value.value_or(0), 30, 0.03);
}

TEST_F(DeskPagePanel, SecondKnownLengthJoinsTheScaleOfThePage) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Scale);
    drag({203, 350}, {437, 350});
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("30"));
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    ASSERT_EQ(reg().frames.size(), 1U);
    EXPECT_EQ(reg().frames[0].references.size(), 2U);
}

TEST_F(DeskPagePanel, AnotherPlaneGetsAScaleOfItsOwnAndIsChosenToMeasureWith) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Scale);
    drag({203, 350}, {437, 350});
    auto* joins = field<QComboBox>("joinsField");
    ASSERT_TRUE(joins->isVisible());
    joins->setCurrentIndex(joins->count() - 1);
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("24"));
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    ASSERT_EQ(reg().frames.size(), 2U);
    m_desk.waitUntilJudged();
    m_panel->setTool(Tool::Measure);
    drag({203, 350}, {437, 350});
    auto* scale = field<QComboBox>("scaleChoice");
    ASSERT_TRUE(scale->isVisible());
    ASSERT_EQ(scale->count(), 2);
    scale->setCurrentIndex(1);
    Q_EMIT scale->activated(1);
    QTest::keyClicks(field<QLineEdit>("nameField"), QStringLiteral("Sill length"));
    QTest::keyClick(field<QLineEdit>("nameField"), Qt::Key_Return);
    ASSERT_EQ(reg().readings.size(), 1U);
    EXPECT_EQ(reg().readings[0].frame, reg().frames[1].id);
}

TEST_F(DeskPagePanel, LiveFiguresStandInTheFieldInShopFractions) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Measure);
    drag({203, 350}, {437, 350});
    const QString figure =
        field<QWidget>("measureField")->findChild<QLabel*>(QStringLiteral("figure"))->text();
    EXPECT_TRUE(figure.startsWith(QStringLiteral("2'-6\" ± "))) << figure.toStdString();
}

TEST_F(DeskPagePanel, UndoTakesBackMeasureAndScale) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Measure);
    drag({203, 350}, {437, 350});
    QTest::keyClicks(field<QLineEdit>("nameField"), QStringLiteral("Sill length"));
    QTest::keyClick(field<QLineEdit>("nameField"), Qt::Key_Return);
    m_desk.open->undoStack().undo();
    EXPECT_TRUE(reg().dimensions.empty());
    EXPECT_EQ(reg().marks.size(), 1U);
    EXPECT_EQ(m_view->marks().marks.size(), 1U);
    m_desk.open->undoStack().undo();
    EXPECT_TRUE(reg().frames.empty());
    EXPECT_TRUE(m_view->marks().marks.empty());
}

TEST_F(DeskPagePanel, EscapeDropsTheDragAndTheField) {
    layBars();
    m_panel->setTool(Tool::Scale);
    QTest::mousePress(m_view, Qt::LeftButton, {}, seen(202, 150));
    moveTo(seen(400, 150));
    QTest::keyClick(m_view, Qt::Key_Escape);
    QTest::mouseRelease(m_view, Qt::LeftButton, {}, seen(500, 150));
    EXPECT_FALSE(field<QWidget>("scaleField")->isVisible());
    drag({202, 150}, {597, 150});
    ASSERT_TRUE(field<QWidget>("scaleField")->isVisible());
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Escape);
    EXPECT_FALSE(field<QWidget>("scaleField")->isVisible());
    EXPECT_TRUE(reg().marks.empty());
}

TEST_F(DeskPagePanel, RefusalStandsUnderTheFieldAndNothingIsKept) {
    layBars();
    m_panel->setTool(Tool::Scale);
    drag({202, 150}, {597, 150});
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("rather long"));
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    auto* refusal = field<QWidget>("scaleField")->findChild<QLabel*>(QStringLiteral("refusal"));
    EXPECT_TRUE(refusal->isVisible());
    EXPECT_TRUE(refusal->text().endsWith(QLatin1Char('.')));
    EXPECT_TRUE(field<QWidget>("scaleField")->isVisible());
    EXPECT_TRUE(reg().marks.empty());
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("50"));
    EXPECT_FALSE(refusal->isVisible());
}

TEST_F(DeskPagePanel, WithoutAScaleMeasuringSaysWhatToDo) {
    layBars();
    QSignalSpy said(m_panel.get(), &PagePanel::said);
    m_panel->setTool(Tool::Measure);
    drag({203, 350}, {437, 350});
    EXPECT_FALSE(field<QWidget>("measureField")->isVisible());
    EXPECT_TRUE(said.back().at(0).toString().contains(QStringLiteral("no scale yet")));
}

TEST_F(DeskPagePanel, ThreeClicksMeasureADiameter) {
    const auto file = m_folder / "disc.png";
    tests::app::page::writePage(file, tests::app::page::pageWithDisc(800, 500, 400, 250, 120));
    layPage(file);
    m_panel->setTool(Tool::Scale);
    drag({282, 250}, {518, 250});
    QTest::keyClicks(field<QLineEdit>("lengthField"), QStringLiteral("30"));
    QTest::keyClick(field<QLineEdit>("lengthField"), Qt::Key_Return);
    m_desk.waitUntilJudged();
    m_panel->setTool(Tool::Circle);
    for (const QPointF& at : {QPointF(281, 250), QPointF(400, 131), QPointF(519, 250)})
        QTest::mouseClick(m_view, Qt::LeftButton, {}, seen(at.x(), at.y()));
    QTest::keyClicks(field<QLineEdit>("nameField"), QStringLiteral("Wheel"));
    QTest::keyClick(field<QLineEdit>("nameField"), Qt::Key_Return);
    ASSERT_EQ(reg().dimensions.size(), 1U);
    EXPECT_EQ(reg().dimensions[0].quantity, record::DimensionQuantity::Diameter);
    m_desk.waitUntilJudged();
    EXPECT_NEAR(m_desk.analyst->judged()->analysis.dimensions.at(0).value.value_or(0), 30, 0.05);
}

TEST_F(DeskPagePanel, ClickOnAMarkChoosesIt) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Look);
    m_desk.selection->choose(record::any(reg().sources.at(0).id));
    ASSERT_TRUE(m_desk.selection->now().mark.empty());
    QTest::mouseClick(m_view, Qt::LeftButton, {}, seen(300, 150));
    EXPECT_EQ(m_desk.selection->now().mark, reg().marks.at(0).id);
}

TEST_F(DeskPagePanel, ClickOnTheLabelOfAMarkChoosesItToo) {
    layBars();
    setScale();
    m_panel->setTool(Tool::Look);
    m_desk.selection->choose(record::any(reg().sources.at(0).id));
    (void)m_panel->grab();  // labels stand where they were painted
    const QPointF middle = m_view->viewport().toView(QPointF(400, 150));
    QTest::mouseClick(m_view, Qt::LeftButton, {}, (middle - QPointF(0, 16)).toPoint());
    EXPECT_EQ(m_desk.selection->now().mark, reg().marks.at(0).id);
}

TEST_F(DeskPagePanel, WheelZoomsToThePointerAndDoubleClickShowsWhole) {
    layBars();
    const QPointF at(300, 200);
    const QPointF before = m_view->viewport().toPage(at);
    QWheelEvent wheel(at, m_view->mapToGlobal(at), {}, {0, 360}, {}, {}, Qt::NoScrollPhase, false);
    QApplication::sendEvent(m_view, &wheel);
    EXPECT_GT(m_view->viewport().zoom(), 1.5);
    const QPointF after = m_view->viewport().toPage(at);
    EXPECT_NEAR(after.x(), before.x(), 1e-9);
    EXPECT_NEAR(after.y(), before.y(), 1e-9);
    QTest::mouseDClick(m_view, Qt::LeftButton, {}, QPoint(300, 200));
    EXPECT_TRUE(m_view->viewport().wholeShown());
}

TEST_F(DeskPagePanel, SaysWhatToDoFirstThatItReadsAndWhyAFileIsRefused) {
    EXPECT_TRUE(m_view->instead().contains(QStringLiteral("Take in")));
    m_desk.takeIn(test::writeText(m_folder / "notes.png", "no picture at all"));
    EXPECT_EQ(m_view->instead().toStdString(), "Reading the page …");
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return m_view->instead().startsWith(QStringLiteral("This page cannot be shown")); }));
    EXPECT_TRUE(m_view->instead().endsWith(QLatin1Char('.')));
    EXPECT_EQ(text("pageTitle").toStdString(), "S1 notes.png");
}

}  // namespace

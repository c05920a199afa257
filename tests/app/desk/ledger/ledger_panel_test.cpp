#include "app/desk/ledger/ledger_panel.h"

#include "app/desk/ledger/ledger_model.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"
#include "tests/app/qt_environment.h"

#include <QAction>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>
#include <QTreeView>
#include <gtest/gtest.h>

namespace {

using namespace app::desk::ledger;
using tests::app::DeskOnARegister;

class Panel : public testing::Test {
  protected:
    explicit Panel(const evidence::record::Register& reg = tests::app::smallTrolley().reg)
        : m_desk(reg), m_panel(m_desk.open(), m_desk.analyst(), m_desk.selection()) {
        m_panel.resize(700, 420);
        m_panel.show();
    }

    template <class Widget>
    Widget& child(const char* name) {
        auto* found = m_panel.findChild<Widget*>(QLatin1String(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    QTreeView& tree() { return child<QTreeView>("ledgerTree"); }
    QModelIndex line(const QString& code) {
        const auto found = tree().model()->match(tree().model()->index(0, 0), Qt::DisplayRole, code,
                                                 1, Qt::MatchExactly | Qt::MatchRecursive);
        return found.isEmpty() ? QModelIndex() : found.front();
    }
    void clickOn(QTreeView& view, const QModelIndex& index) {
        view.scrollTo(index);
        QTest::mouseClick(view.viewport(), Qt::LeftButton, {}, view.visualRect(index).center());
    }
    QString chosenCode() {
        return tree().currentIndex().siblingAtColumn(LedgerModel::Code).data().toString();
    }
    static evidence::record::ChangeSet rename(const evidence::record::Dimension& before,
                                              const std::string& name) {
        auto after = before;
        after.name = name;
        return {"rename", {{before, after}}};
    }

    DeskOnARegister m_desk;
    LedgerPanel m_panel;
};

class EmptyPanel : public Panel {
  protected:
    EmptyPanel() : Panel(evidence::record::Register{}) {}
};

TEST_F(Panel, SaysThatItIsWorkingUntilTheAnalysisHasCome) {
    auto& state = child<QLabel>("ledgerState");
    if (m_desk.analyst().atWork()) {
        EXPECT_TRUE(state.text().startsWith("Working it out")) << state.text().toStdString();
    }
    m_desk.waitForAnalysis();
    EXPECT_FALSE(state.isVisible());
    EXPECT_TRUE(line("D1").isValid());
    EXPECT_TRUE(child<QLabel>("ledgerSummary").text().startsWith("6 dimensions"));
}

TEST_F(Panel, ClickingALineChoosesItsSize) {
    m_desk.waitForAnalysis();
    clickOn(tree(), line("D3").siblingAtColumn(LedgerModel::Name));
    EXPECT_EQ(m_desk.selection().now().record.text, "d3");
    QTest::keyClick(&tree(), Qt::Key_Up);
    EXPECT_EQ(m_desk.selection().now().record.text, "d2");
}

TEST_F(Panel, FollowsWhatIsChosenElsewhereAndDoesNotChooseBack) {
    m_desk.waitForAnalysis();
    QSignalSpy changed(&m_desk.selection(), &app::desk::Selection::changed);
    m_desk.selection().choose({"r4"});  // a reading of D3
    EXPECT_EQ(chosenCode(), "D3");
    EXPECT_EQ(m_desk.selection().now().record.text, "r4");
    EXPECT_EQ(changed.size(), 1);
    EXPECT_TRUE(tree().viewport()->rect().intersects(tree().visualRect(tree().currentIndex())));
    m_desk.selection().choose({"s1"});
    EXPECT_FALSE(tree().currentIndex().isValid());
}

TEST_F(Panel, KeepsOpenNodesPlaceAndLineWhenTheRegisterChanges) {
    m_panel.resize(700, 240);
    m_desk.waitForAnalysis();
    const QModelIndex roof = line("D4").parent();
    tree().collapse(roof);
    m_desk.selection().choose({"d5"});
    tree().verticalScrollBar()->setValue(20);
    const int place = tree().verticalScrollBar()->value();
    ASSERT_EQ(place, 20);
    const auto before = m_desk.open().snapshot()->reg.dimensions[4];
    m_desk.perform(rename(before, "Wheel tread diameter"));
    m_desk.waitForAnalysis();
    EXPECT_EQ(line("D5").siblingAtColumn(LedgerModel::Name).data().toString(),
              "Wheel tread diameter");
    EXPECT_FALSE(tree().isExpanded(line("D4").parent()));
    EXPECT_TRUE(tree().isExpanded(line("D3").parent()));
    EXPECT_EQ(chosenCode(), "D5");
    EXPECT_EQ(m_desk.selection().now().record.text, "d5");
    EXPECT_EQ(tree().verticalScrollBar()->value(), place);
}

TEST_F(Panel, ShowsWhatIsNewAndChosenAsSoonAsItIsKnown) {
    m_panel.resize(700, 240);
    m_desk.waitForAnalysis();
    evidence::record::Dimension made;
    made.id = {"d99"};
    made.code = "D99";
    made.name = "Whistle cord";
    made.component = "Running gear";
    m_desk.perform({"measure", {{std::nullopt, made}}});
    m_desk.selection().choose({"d99"});
    EXPECT_FALSE(tree().currentIndex().isValid());
    m_desk.waitForAnalysis();
    EXPECT_EQ(chosenCode(), "D99");
    EXPECT_TRUE(tree().viewport()->rect().intersects(tree().visualRect(tree().currentIndex())));
}

TEST_F(Panel, NarrowsByWordsAndKeepsWhatIsChosen) {
    m_desk.waitForAnalysis();
    m_desk.selection().choose({"d3"});
    m_panel.startFilter();
    QTest::keyClicks(&child<QLineEdit>("ledgerFilter"), "hoop");
    EXPECT_TRUE(line("D4").isValid());
    EXPECT_FALSE(line("D3").isValid());
    EXPECT_EQ(m_desk.selection().now().record.text, "d3") << "narrowing chooses nothing";
    QTest::keyClick(&child<QLineEdit>("ledgerFilter"), Qt::Key_Escape);
    EXPECT_EQ(chosenCode(), "D3");
    QTest::keyClicks(&child<QLineEdit>("ledgerFilter"), "xyz");
    EXPECT_TRUE(child<QLabel>("ledgerInstead").isVisible());
}

TEST_F(Panel, ListsFindingsOnRequestAndChoosesWhatTheyConcern) {
    m_desk.waitForAnalysis();
    auto& list = child<QTreeView>("findings");
    EXPECT_FALSE(list.isVisible());
    child<QToolButton>("findingsFold").click();
    EXPECT_TRUE(list.isVisible());
    clickOn(list, list.model()->index(0, 0, list.model()->index(0, 0)));
    const auto& first = m_desk.analyst().judged()->analysis.findings.front();
    EXPECT_EQ(m_desk.selection().now().record, first.on.front());
}

TEST_F(Panel, AsksForAcknowledgementOfTheMarkedFinding) {
    m_desk.waitForAnalysis();
    QSignalSpy wanted(&m_panel, &LedgerPanel::acknowledgeWanted);
    child<QToolButton>("findingsFold").click();
    auto& button = child<QPushButton>("acknowledge");
    EXPECT_FALSE(button.isEnabled());
    m_desk.selection().choose({"d3"});
    ASSERT_TRUE(button.isEnabled()) << "the first note beside the chosen size is marked";
    button.click();
    ASSERT_EQ(wanted.size(), 1);
    const auto index = wanted[0][0].value<std::size_t>();
    EXPECT_EQ(m_desk.analyst().judged()->analysis.findings[index].kind, "conflict");
}

TEST_F(Panel, ContextMenuOffersTheNotesAndThePanelsActions) {
    m_desk.waitForAnalysis();
    QAction own(QStringLiteral("Guess …"));
    m_panel.addAction(&own);
    QSignalSpy wanted(&m_panel, &LedgerPanel::acknowledgeWanted);
    tree().scrollTo(line("D3"));
    tests::app::announceQtWarning(QStringLiteral("grabbing the keyboard"));
    Q_EMIT tree().customContextMenuRequested(tree().visualRect(line("D3")).center());
    auto* menu = m_panel.findChild<QMenu*>(QStringLiteral("ledgerMenu"));
    ASSERT_NE(menu, nullptr);
    EXPECT_TRUE(menu->actions().contains(&own));
    ASSERT_TRUE(menu->actions().front()->text().startsWith("Acknowledge"));
    menu->actions().front()->trigger();
    EXPECT_EQ(wanted.size(), 1);
    menu->close();
}

TEST_F(EmptyPanel, SaysWhatToDoFirst) {
    m_desk.waitForAnalysis();
    auto& instead = child<QLabel>("ledgerInstead");
    EXPECT_TRUE(instead.isVisible());
    EXPECT_TRUE(instead.text().contains("scale"));
    EXPECT_FALSE(child<QTreeView>("ledgerTree").isVisible());
}

}  // namespace

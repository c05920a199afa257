#include "app/desk/ledger/ledger_model.h"

#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <gtest/gtest.h>

namespace {

using app::desk::ledger::LedgerEntry;
using app::desk::ledger::LedgerModel;

class Ledger : public testing::Test {
  protected:
    void SetUp() override { m_model.show(tests::app::judged(tests::app::smallTrolley().reg)); }

    QString text(const char* id, LedgerModel::Column column) const {
        return m_model.indexOf({id}).siblingAtColumn(column).data().toString();
    }
    QString tip(const char* id, LedgerModel::Column column) const {
        return m_model.indexOf({id}).siblingAtColumn(column).data(Qt::ToolTipRole).toString();
    }
    const LedgerEntry& entry(const char* id) const {
        return *LedgerModel::entryAt(m_model.indexOf({id}));
    }

    LedgerModel m_model;
    QAbstractItemModelTester m_tester{&m_model,
                                      QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(Ledger, HoldsTheSizesUnderTheirComponents) {
    QStringList roots;
    for (int row = 0; row < m_model.rowCount({}); ++row)
        roots << m_model.index(row, LedgerModel::Name, {}).data().toString();
    EXPECT_EQ(roots, QStringList({"Step height", "Body", "Running gear"}));
    const QModelIndex body = m_model.index(1, 0, {});
    QStringList inBody;
    for (int row = 0; row < m_model.rowCount(body); ++row)
        inBody << m_model.index(row, LedgerModel::Name, body).data().toString();
    EXPECT_EQ(inBody, QStringList({"Length over headstocks", "Panel timber", "Frame", "Roof"}));
    EXPECT_EQ(m_model.indexOf({"d2"}).parent().parent(), body);
}

TEST_F(Ledger, WritesFiguresWithRealFractionsAndHalfTheInterval) {
    EXPECT_EQ(text("d1", LedgerModel::Code), "D1");
    EXPECT_EQ(text("d1", LedgerModel::Name), "Length over headstocks");
    EXPECT_EQ(text("d1", LedgerModel::Value), QString::fromUtf8("14′-3½″"));
    EXPECT_EQ(text("d1", LedgerModel::Spread), QString::fromUtf8("± 0.14\u00A0in"));
    EXPECT_EQ(text("d1", LedgerModel::Sign), "F");
    EXPECT_EQ(m_model.headerData(LedgerModel::Spread, Qt::Horizontal, Qt::DisplayRole).toString(),
              QString::fromUtf8("± (95 %)"));
    ASSERT_TRUE(entry("d1").bar);
    EXPECT_NEAR(*entry("d1").bar->high - *entry("d1").bar->low, 2 * 1.96 * 0.07, 0.01);
    EXPECT_EQ(entry("d1").tolerance, 0.0625);
}

TEST_F(Ledger, WritesParticularsInTheirWords) {
    EXPECT_EQ(text("q1", LedgerModel::Value), "white oak");
    EXPECT_EQ(text("q1", LedgerModel::Spread), "");
    EXPECT_FALSE(entry("q1").bar);
}

TEST_F(Ledger, SaysWhatIsNotKnown) {
    EXPECT_EQ(text("d5", LedgerModel::Value), "not known");
    EXPECT_EQ(text("d5", LedgerModel::Sign), QString::fromUtf8("–"));
}

TEST_F(Ledger, SaysWhatRestsOnAGuessAndCautionsWhereItIsCritical) {
    EXPECT_TRUE(entry("d2").restsOnGuess);
    EXPECT_TRUE(tip("d2", LedgerModel::Sign).contains("rests on a guess"));
    EXPECT_EQ(text("d2", LedgerModel::Margin), "Safety-critical, on a guess.");
    EXPECT_TRUE(entry("d2").margin.attention);
    EXPECT_TRUE(tip("d2", LedgerModel::Margin).contains("licensed practice"));
    EXPECT_TRUE(entry("d4").restsOnGuess) << "what depends on a guess rests on it too";
    EXPECT_TRUE(entry("d4").caution.isEmpty());
    EXPECT_FALSE(entry("d1").restsOnGuess);
}

TEST_F(Ledger, CautionsWhereACriticalSizeIsInConflict) {
    auto b = tests::app::smallTrolley();
    for (auto& dimension : b.reg.dimensions) dimension.critical = dimension.id.text == "d3";
    m_model.show(tests::app::judged(b.reg));
    EXPECT_EQ(text("d3", LedgerModel::Margin), "Safety-critical, in conflict.");
}

TEST_F(Ledger, PutsTheGravestNoteIntoTheMarginAndCountsTheOthers) {
    const auto& findings = m_model.judged()->analysis.findings;
    const auto& post = entry("d3");
    ASSERT_FALSE(post.notes.empty());
    EXPECT_EQ(findings[post.notes.front()].kind, "conflict");
    EXPECT_EQ(post.margin.more, static_cast<int>(post.notes.size()) - 1);
    for (const auto& finding : findings)
        for (const char* id : {"d1", "d2", "d3", "d4", "d5"})
            EXPECT_FALSE(
                tip(id, LedgerModel::Margin).contains(QString::fromStdString(finding.kind)) &&
                finding.kind.find('-') != std::string::npos)
                << "a finding's code on screen: " << finding.kind;
}

TEST_F(Ledger, CountsWhatIsToSettleFirstInAComponent) {
    const QModelIndex frame = m_model.indexOf({"d3"}).parent();
    EXPECT_TRUE(LedgerModel::entryAt(frame)->margin.words.contains("to settle first"));
}

TEST_F(Ledger, KeysNameTheSameLineInTheNextVersion) {
    const QString key = m_model.indexOf({"d3"}).data(LedgerModel::KeyRole).toString();
    auto b = tests::app::smallTrolley();
    b.dimension("d0", "Roof height").component = "Attic/Loft";
    QSignalSpy reset(&m_model, &QAbstractItemModel::modelReset);
    m_model.show(tests::app::judged(b.reg));
    EXPECT_EQ(reset.size(), 1);
    EXPECT_EQ(m_model.indexOf({"d3"}).data(LedgerModel::KeyRole).toString(), key);
}

TEST_F(Ledger, IsEmptyWithoutARegister) {
    m_model.show(nullptr);
    EXPECT_EQ(m_model.rowCount({}), 0);
    EXPECT_FALSE(m_model.indexOf({"d1"}).isValid());
}

}  // namespace

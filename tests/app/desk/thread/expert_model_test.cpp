#include "app/desk/thread/expert_model.h"

#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QAbstractItemModelTester>
#include <gtest/gtest.h>

namespace {

using app::desk::thread::ExpertModel;

class Experts : public testing::Test {
  protected:
    QString text(int row, ExpertModel::Column column) const {
        return m_model.index(row, column).data().toString();
    }

    ExpertModel m_model;
    QAbstractItemModelTester m_tester{&m_model,
                                      QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(Experts, FiguresAreThoseOfTheAnalysis) {
    const auto judged = tests::app::judged(tests::app::smallTrolley().reg);
    m_model.show(judged, {"d3"});
    ASSERT_EQ(m_model.rowCount({}), 2);
    EXPECT_EQ(m_model.readingAt(0).text, "r3");
    EXPECT_TRUE(text(0, ExpertModel::Reading).contains("figured on the drawing"));
    EXPECT_EQ(text(0, ExpertModel::Value), "3.500");
    EXPECT_EQ(text(0, ExpertModel::U), "0.020");
    // Two readings of equal weight: each has half of the redundancy and of the doubt; they differ
    // by 1 in, so w = 1 / (0.02 √2) = 35.
    EXPECT_EQ(text(0, ExpertModel::Checked), "50 %");
    EXPECT_EQ(text(0, ExpertModel::Share), "50 %");
    EXPECT_EQ(text(0, ExpertModel::Pull), "0.50");
    EXPECT_EQ(text(0, ExpertModel::Misfit), QString::fromUtf8("−35"));
    EXPECT_EQ(text(1, ExpertModel::Misfit), "35");
}

TEST_F(Experts, HeadingsAreInWordsAndSymbolsInTooltips) {
    m_model.show(tests::app::judged(tests::app::smallTrolley().reg), {"d3"});
    const auto heading = [&](ExpertModel::Column column, int role) {
        return m_model.headerData(column, Qt::Horizontal, role).toString();
    };
    EXPECT_EQ(heading(ExpertModel::Misfit, Qt::DisplayRole), "misfit, in its own spreads");
    EXPECT_TRUE(heading(ExpertModel::Misfit, Qt::ToolTipRole).endsWith("w."));
    EXPECT_EQ(heading(ExpertModel::Checked, Qt::DisplayRole), "how well others check it");
    EXPECT_EQ(heading(ExpertModel::SmallestMistake, Qt::DisplayRole),
              "the smallest mistake this would show, in");
    EXPECT_EQ(heading(ExpertModel::Pull, Qt::DisplayRole), "how far the result follows it");
    EXPECT_EQ(heading(ExpertModel::Share, Qt::DisplayRole), "share of the doubt");
    EXPECT_EQ(heading(ExpertModel::U, Qt::DisplayRole), "u, in");
}

TEST_F(Experts, AReadingThatNothingChecksHasNoMisfit) {
    m_model.show(tests::app::judged(tests::app::smallTrolley().reg), {"d1"});
    ASSERT_EQ(m_model.rowCount({}), 1);
    EXPECT_EQ(text(0, ExpertModel::Misfit), QString::fromUtf8("–"));
    EXPECT_EQ(text(0, ExpertModel::Share), "100 %");
    EXPECT_TRUE(m_model.fitWords().contains("nothing checks"));
    m_model.show(tests::app::judged(tests::app::smallTrolley().reg), {"d3"});
    EXPECT_TRUE(m_model.fitWords().contains(QString::fromUtf8("χ²")));
}

TEST_F(Experts, TableIsEmptyForAParticular) {
    m_model.show(tests::app::judged(tests::app::smallTrolley().reg), {"q1"});
    EXPECT_EQ(m_model.rowCount({}), 0);
    EXPECT_TRUE(m_model.readingAt(0).empty());
}

}  // namespace

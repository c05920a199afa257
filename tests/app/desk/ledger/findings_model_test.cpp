#include "app/desk/ledger/findings_model.h"

#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QAbstractItemModelTester>
#include <gtest/gtest.h>

namespace {

using app::desk::ledger::FindingsModel;
using evidence::judgement::Severity;

std::shared_ptr<const app::desk::Judged> withAcknowledged(std::size_t finding) {
    auto judged =
        std::make_shared<app::desk::Judged>(*tests::app::judged(tests::app::smallTrolley().reg));
    judged->analysis.findings[finding].acknowledged = true;
    return judged;
}

class Findings : public testing::Test {
  protected:
    FindingsModel m_model;
    QAbstractItemModelTester m_tester{&m_model,
                                      QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(Findings, AreGatheredGravestFirst) {
    const auto judged = tests::app::judged(tests::app::smallTrolley().reg);
    m_model.show(judged);
    ASSERT_GT(m_model.rowCount({}), 1);
    EXPECT_TRUE(m_model.index(0, 0, {}).data().toString().startsWith("Settle first ("));
    std::size_t shown = 0;
    auto last = Severity::High;
    for (int g = 0; g < m_model.rowCount({}); ++g) {
        const QModelIndex gathering = m_model.index(g, 0, {});
        ASSERT_GT(m_model.rowCount(gathering), 0) << "an empty gathering";
        for (int row = 0; row < m_model.rowCount(gathering); ++row, ++shown) {
            const QModelIndex index = m_model.index(row, 0, gathering);
            const auto finding = FindingsModel::findingAt(index);
            ASSERT_TRUE(finding);
            EXPECT_GE(judged->analysis.findings[*finding].severity, last);
            last = judged->analysis.findings[*finding].severity;
            EXPECT_EQ(m_model.indexOf(*finding), index);
            EXPECT_EQ(index.data().toString().toStdString(),
                      judged->analysis.findings[*finding].text);
        }
    }
    EXPECT_EQ(shown, judged->analysis.findings.size());
}

TEST_F(Findings, ThatAreAcknowledgedComeLastAndQuiet) {
    m_model.show(withAcknowledged(0));
    const QModelIndex last = m_model.index(m_model.rowCount({}) - 1, 0, {});
    EXPECT_EQ(last.data().toString(), "Acknowledged (1)");
    const QModelIndex finding = m_model.index(0, 0, last);
    EXPECT_EQ(FindingsModel::findingAt(finding), std::size_t{0});
    EXPECT_TRUE(finding.data(FindingsModel::QuietRole).toBool());
    EXPECT_FALSE(finding.data(FindingsModel::AttentionRole).toBool());
}

TEST_F(Findings, SummaryCountsWhatIsOpen) {
    m_model.show(tests::app::judged(tests::app::smallTrolley().reg));
    EXPECT_TRUE(m_model.summary().contains("to settle first")) << m_model.summary().toStdString();
    m_model.show(nullptr);
    EXPECT_EQ(m_model.summary(), "Nothing to settle");
}

}  // namespace

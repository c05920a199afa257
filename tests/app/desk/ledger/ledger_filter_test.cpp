#include "app/desk/ledger/ledger_filter.h"

#include "app/desk/ledger/ledger_model.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QAbstractItemModelTester>
#include <gtest/gtest.h>

namespace {

using namespace app::desk::ledger;
using evidence::record::Grade;

class Filter : public testing::Test {
  protected:
    void SetUp() override {
        m_model.show(tests::app::judged(tests::app::smallTrolley().reg));
        m_filter.setSourceModel(&m_model);
    }

    /// Codes of the sizes that are left.
    QStringList left(const QString& asked) {
        m_filter.ask(asked);
        QStringList codes;
        gather({}, codes);
        codes.sort();
        return codes;
    }

    LedgerModel m_model;
    LedgerFilter m_filter;
    QAbstractItemModelTester m_tester{&m_filter,
                                      QAbstractItemModelTester::FailureReportingMode::Fatal};

  private:
    void gather(const QModelIndex& parent, QStringList& codes) {
        for (int row = 0; row < m_filter.rowCount(parent); ++row) {
            const QModelIndex index = m_filter.index(row, 0, parent);
            if (!index.data().toString().isEmpty()) codes << index.data().toString();
            gather(index, codes);
        }
    }
};

TEST_F(Filter, ShowsEverythingWhenNothingIsAsked) {
    EXPECT_EQ(left(QString()).size(), 7);
    EXPECT_TRUE(m_filter.asksNothing());
}

TEST_F(Filter, FindsWordsOfNamesComponentsAndValues) {
    EXPECT_EQ(left("hoop"), QStringList{"D4"});
    EXPECT_EQ(left("frame"), QStringList({"D2", "D3"}));
    EXPECT_EQ(left("oak"), QStringList{"P1"});
    EXPECT_EQ(left("frame sill"), QStringList{"D2"});
    EXPECT_TRUE(left("nothing like it").isEmpty());
}

TEST_F(Filter, FindsCodesByTheirBeginning) {
    EXPECT_EQ(left("d10"), QStringList{"D10"});
    EXPECT_EQ(left("D1"), QStringList({"D1", "D10"}));
}

TEST_F(Filter, FindsGradesByTheirCapital) {
    EXPECT_EQ(left("O"), QStringList({"D2", "D4"}));
    EXPECT_EQ(left("-"), QStringList{"D5"});
    EXPECT_EQ(left(QString::fromUtf8("O –")), QStringList({"D2", "D4", "D5"}));
    EXPECT_EQ(left("O roof"), QStringList{"D4"});
    EXPECT_FALSE(left("o").isEmpty()) << "a small o is a word";
}

TEST_F(Filter, KeepsComponentsOnlyForWhatIsInThem) {
    left("hoop");
    ASSERT_EQ(m_filter.rowCount({}), 1);
    const QModelIndex body = m_filter.index(0, 0, {});
    EXPECT_EQ(body.siblingAtColumn(LedgerModel::Name).data().toString(), "Body");
    ASSERT_EQ(m_filter.rowCount(body), 1);
}

TEST(LedgerQuery, TogglesAGradeInTheWords) {
    EXPECT_EQ(withGradeToggled("roof", Grade::OurCall), "roof O");
    EXPECT_EQ(withGradeToggled("roof O", Grade::OurCall), "roof");
    EXPECT_EQ(withGradeToggled("- roof", Grade::Blank), "roof");
    EXPECT_EQ(withGradeToggled("", Grade::InHand), "H");
}

}  // namespace

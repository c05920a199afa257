#include "app/desk/ledger/grade_summary.h"

#include "app/desk/ledger/ledger_entry.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QSignalSpy>
#include <QTest>
#include <gtest/gtest.h>

namespace {

using namespace app::desk::ledger;
using evidence::record::Grade;

TEST(GradeSummary, CountsDimensionsThatAreNotSetAside) {
    auto b = tests::app::smallTrolley();
    const auto counts = countGrades(*readLedger(*tests::app::judged(b.reg)));
    EXPECT_EQ(gradeCountWords(counts).replace(QChar(0x00A0), QLatin1Char(' ')),
              QString::fromUtf8("6 dimensions: 2 F · 1 T · 2 O · 1 –"));
    b.reg.dimensions.back().setAside = "not asked for";
    const auto fewer = countGrades(*readLedger(*tests::app::judged(b.reg)));
    EXPECT_TRUE(gradeCountWords(fewer).startsWith("5 dimensions"));
}

TEST(GradeSummary, AClickAsksForTheGradeUnderIt) {
    GradeSummary bar;
    bar.resize(100, 16);
    GradeCounts counts{};
    counts[0] = 1;
    counts[5] = 3;
    bar.show(counts);
    QSignalSpy picked(&bar, &GradeSummary::gradePicked);
    QTest::mouseClick(&bar, Qt::LeftButton, {}, QPoint(10, 8));
    QTest::mouseClick(&bar, Qt::LeftButton, {}, QPoint(60, 8));
    ASSERT_EQ(picked.size(), 2);
    EXPECT_EQ(picked[0][0].value<Grade>(), Grade::InHand);
    EXPECT_EQ(picked[1][0].value<Grade>(), Grade::OurCall);
}

}  // namespace

#include "app/desk/ledger/margin_notes.h"

#include "tests/app/desk/small_trolley.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace {

using namespace evidence;
using app::desk::ledger::besideItsValue;
using app::desk::ledger::MarginNotes;

TEST(MarginNotes, StandBesideTheValueTheyName) {
    const auto b = tests::app::smallTrolley();
    const auto analysis = b.analyse();
    const MarginNotes notes(b.reg, analysis);
    const auto& beside = notes.beside({"d2"});
    EXPECT_TRUE(std::ranges::any_of(
        beside, [&](std::size_t i) { return analysis.findings[i].kind == "rests-on-guess"; }));
    EXPECT_TRUE(notes.beside({"nobody"}).empty());
}

TEST(MarginNotes, OfAScaleStandBesideTheSizeThatSetsIt) {
    testsupport::RegisterBuilder b;
    b.pictured("s1", "Broadside", record::SourceKind::Photograph, record::Authority::Eyewitness);
    b.dimension("d1", "Wheelbase");
    b.dimension("d2", "Height");
    b.reading("r0", "d1", record::Basis::Figured, "s1", b.number(60), 0.1);
    b.segment("m1", "s1", 600);
    b.segment("m2", "s1", 300);
    auto& frame = b.uniform("g1", "s1");
    b.referenceTo(frame, "m1", "d1");
    b.scaled("r1", "d2", "g1", "m2");
    judgement::Analysis analysis = b.analyse();
    judgement::Finding about;
    about.kind = "unsupported-reference";
    about.on = {{"g1"}};
    analysis.findings = {about};
    EXPECT_EQ(MarginNotes(b.reg, analysis).beside({"d1"}), std::vector<std::size_t>{0});
}

TEST(MarginNotes, AcknowledgedOnesMakeRoomForOpenOnes) {
    auto b = tests::app::smallTrolley();
    judgement::Analysis analysis = b.analyse();
    const MarginNotes before(b.reg, analysis);
    const auto first = before.beside({"d2"}).front();
    ASSERT_GT(before.beside({"d2"}).size(), 1U);
    analysis.findings[first].acknowledged = true;
    EXPECT_EQ(MarginNotes(b.reg, analysis).beside({"d2"}).back(), first);
}

TEST(MarginNotes, SpeakOfTheValueAsIt) {
    const QString sill = QStringLiteral("Sill");
    EXPECT_EQ(besideItsValue(QStringLiteral("Sill (D2) rests on a guess."), sill),
              QStringLiteral("It rests on a guess."));
    EXPECT_EQ(besideItsValue(QStringLiteral("Sill (D2): the size is an echo."), sill),
              QStringLiteral("The size is an echo."));
    EXPECT_EQ(besideItsValue(QStringLiteral("Sill (D2) and Post (D3) disagree."), sill),
              QStringLiteral("Sill (D2) and Post (D3) disagree."));
    EXPECT_EQ(besideItsValue(QStringLiteral("Two readings disagree."), sill),
              QStringLiteral("Two readings disagree."));
    EXPECT_EQ(besideItsValue(QStringLiteral("Sills are rare."), sill),
              QStringLiteral("Sills are rare."));
}

}  // namespace

#include "tests/app/desk/form/filled_form.h"

#include <QUndoStack>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using tests::app::DeskOnARegister;
using tests::app::FilledForm;

record::Register tankUnderDeck() {
    testsupport::RegisterBuilder builder;
    builder.dimension("d1", "Tank 2, length");
    builder.dimension("d2", "Space under the deck");
    builder.dimension("d3", "Tank 1, length").component = "Fuel/Tank 1";
    builder.source("s1", "General arrangement");
    builder.reading("r2", "d2", record::Basis::Figured, "s1", std::string("30 in"), 0.1);
    builder.reading("r3", "d3", record::Basis::Figured, "s1", std::string("24 in"), 0.1);
    builder.relation("l1", "D1 <= D2", record::Basis::Geometry);
    builder.particular("q1", "Tank 2, plates");
    return builder.reg;
}

class GuessForm : public ::testing::Test {
  protected:
    void SetUp() override { m_desk.waitForAnalysis(); }

    [[nodiscard]] const record::Register& reg() { return m_desk.open().snapshot()->reg; }
    [[nodiscard]] QDialog* form(const char* on = "d1") {
        return desk::form::guessForm(m_desk.open(), m_desk.analyst(), {on}, nullptr);
    }

    DeskOnARegister m_desk{tankUnderDeck()};
};

TEST_F(GuessForm, ShowsTheConfinesKnownSoFar) {
    const FilledForm form(this->form());
    const auto known = form.known();
    EXPECT_TRUE(known.contains(QStringLiteral("not known")));
    EXPECT_TRUE(known.contains(QStringLiteral("Tank 2, length ≤ Space under the deck")));
    EXPECT_TRUE(known.contains(QStringLiteral("leaves at most 2′-6″")));
    EXPECT_TRUE(known.contains(QStringLiteral("Tank 1, length")));
    EXPECT_TRUE(known.contains(QStringLiteral("2′-0″")));
}

TEST_F(GuessForm, IsNotKeptWithoutBothBounds) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("low", "20 in").write("reason", "it has to fit").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(form.hasFocus("high"));
    EXPECT_EQ(reg(), before);
}

TEST_F(GuessForm, IsNotKeptWithoutAReason) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("low", "20 in").write("high", "28 in").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(form.hasFocus("reason"));
    EXPECT_EQ(reg(), before);
}

TEST_F(GuessForm, RefusalStandsUnderItsFieldInRedPencil) {
    FilledForm form(this->form());
    form.write("low", "20 in").write("high", "about so").write("reason", "it fits").press("keep");
    const auto* refusal = form.field<QLabel>("refusal");
    EXPECT_EQ(refusal->property("pencil").toString(), QStringLiteral("red"));
    QCoreApplication::processEvents();
    const auto* field = form.field<QLineEdit>("high");
    const int foot = field->mapToGlobal(QPoint(0, field->height())).y();
    const int top = refusal->mapToGlobal(QPoint(0, 0)).y();
    EXPECT_GE(top, foot);
    EXPECT_LE(top, foot + 8);
}

TEST_F(GuessForm, RefusalStandsCloseUnderATallField) {
    FilledForm form(this->form());
    form.write("low", "20 in").write("high", "28 in").press("keep");
    QCoreApplication::processEvents();
    const auto* field = form.field<QPlainTextEdit>("reason");
    const auto* refusal = form.field<QLabel>("refusal");
    const int foot = field->mapToGlobal(QPoint(0, field->height())).y();
    EXPECT_GE(refusal->mapToGlobal(QPoint(0, 0)).y(), foot);
    EXPECT_LE(refusal->mapToGlobal(QPoint(0, refusal->height())).y(), foot + 32);
}

TEST_F(GuessForm, KeepsBoundsAndReasonsAsTypedAndUndoTakesItBack) {
    const auto before = reg().readings.size();
    FilledForm form(this->form());
    form.write("low", "20 in")
        .write("high", "28 in")
        .write("reason", "it lies between the beams")
        .write("considered", "one tank of 36 in")
        .write("wouldSettle", "a photograph of the other side")
        .press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().readings.size(), before + 1);
    const auto& guess = reg().readings.back();
    EXPECT_EQ(guess.basis, record::Basis::Guessed);
    EXPECT_EQ(guess.of.text, "d1");
    EXPECT_DOUBLE_EQ(std::get<record::Number>(*guess.value).value, 24);
    EXPECT_DOUBLE_EQ(*guess.halfWidth, 4);
    for (const char* words : {"it lies between the beams", "one tank of 36 in",
                              "a photograph of the other side", "20 in", "28 in"})
        EXPECT_NE(guess.reason->find(words), std::string::npos) << words;
    m_desk.open().undoStack().undo();
    EXPECT_EQ(reg().readings.size(), before);
}

TEST_F(GuessForm, TellsWhatTheGuessIsTakenAs) {
    FilledForm form(this->form());
    EXPECT_FALSE(form.isShown("takenAs"));
    form.write("low", "20").write("high", "28");
    EXPECT_TRUE(form.isShown("takenAs"));
    // 0.95 × 4 in.
    EXPECT_EQ(form.field<QLabel>("takenAs")->text(), QStringLiteral("Taken as 2′-0″ ± 3.8 in."));
}

TEST_F(GuessForm, AsksForAReasonOnlyWhereTheBoundsAreUnderTheFloor) {
    FilledForm form(this->form());
    form.write("low", "20").write("high", "28");
    EXPECT_FALSE(form.isShown("floorReason"));
    form.write("low", "23 7/8").write("high", "24 1/8");
    EXPECT_TRUE(form.isShown("floorReason"));
    form.write("reason", "it fits").write("floorReason", "the saddle shows it").press("keep");
    EXPECT_EQ(reg().readings.back().floorReason, "the saddle shows it");
}

TEST_F(GuessForm, ParticularIsGuessedInWordsWithAReason) {
    const auto before = reg();
    FilledForm form(this->form("q1"));
    EXPECT_FALSE(form.isShown("low"));
    form.write("value", "tinned steel").press("keep");
    EXPECT_TRUE(form.hasFocus("reason"));
    EXPECT_EQ(reg(), before);
    form.write("reason", "what the trade used").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(reg().readings.back().basis, record::Basis::Guessed);
    EXPECT_EQ(std::get<std::string>(*reg().readings.back().value), "tinned steel");
}

TEST_F(GuessForm, LeavingWritesNothing) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("low", "20").write("high", "28").write("reason", "it fits").press("leave");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(reg(), before);
}

TEST_F(GuessForm, FollowsTheEvidenceWhileItLiesOpen) {
    const FilledForm form(this->form());
    record::Reading limit;
    limit.id = {"r9"};
    limit.of = {"d1"};
    limit.basis = record::Basis::Limit;
    limit.low = std::string("18 in");
    m_desk.perform({"limit", {{std::nullopt, limit}}});
    m_desk.waitForAnalysis();
    EXPECT_TRUE(form.known().contains(QStringLiteral("no less than 18 in")));
}

}  // namespace

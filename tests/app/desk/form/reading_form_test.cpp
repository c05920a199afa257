#include "tests/app/desk/form/filled_form.h"

#include <QUndoStack>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using tests::app::DeskOnARegister;
using tests::app::FilledForm;

record::Register sillAndTimber() {
    testsupport::RegisterBuilder builder;
    builder.dimension("d1", "Sill depth");
    builder.dimension("d2", "Post");
    builder.particular("q1", "Panel timber");
    builder.source("s1", "General arrangement");
    builder.source("s2", "Axlebox", record::SourceKind::Part);
    builder.reading("r2", "d2", record::Basis::Figured, "s1", std::string("2 5/16"));
    return builder.reg;
}

class ReadingForm : public ::testing::Test {
  protected:
    [[nodiscard]] const record::Register& reg() { return m_desk.open().snapshot()->reg; }
    [[nodiscard]] const record::Reading& last() { return reg().readings.back(); }
    [[nodiscard]] QDialog* form(const char* on = "d1") {
        return desk::form::readingForm(m_desk.open(), m_desk.analyst(), {on}, nullptr);
    }

    DeskOnARegister m_desk{sillAndTimber()};
};

TEST_F(ReadingForm, IsNotKeptWithoutAValue) {
    const auto before = reg();
    FilledForm form(this->form());
    form.press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(form.hasFocus("value"));
    EXPECT_EQ(reg(), before);
}

TEST_F(ReadingForm, IsNotKeptWithAValueThatCannotBeRead) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("value", "l5 3/4").press("keep");
    EXPECT_TRUE(form.hasFocus("value"));
    EXPECT_EQ(reg(), before);
}

TEST_F(ReadingForm, KeepsAFigureAsTypedAndUndoTakesItBack) {
    const auto before = reg().readings.size();
    FilledForm form(this->form());
    form.write("basis", "figured on the drawing")
        .write("source", "S1 General arrangement")
        .write("value", "5 3/4")
        .write("excerpt", "sill 5 3/4 x 3")
        .press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().readings.size(), before + 1);
    EXPECT_EQ(last().of.text, "d1");
    EXPECT_EQ(last().basis, record::Basis::Figured);
    EXPECT_EQ(last().source, record::SourceId{"s1"});
    EXPECT_EQ(std::get<std::string>(*last().value), "5 3/4");
    EXPECT_EQ(last().excerpt, "sill 5 3/4 x 3");
    EXPECT_FALSE(last().u || last().halfWidth || last().roundedTo);
    m_desk.open().undoStack().undo();
    EXPECT_EQ(reg().readings.size(), before);
}

TEST_F(ReadingForm, ShowsTheDefaultOfTheBasis) {
    FilledForm form(this->form());
    EXPECT_FALSE(form.isShown("spread"));
    // The sheet has sixteenths: ± 1/32 as a rectangle, of which 95 % are 0.030 in.
    form.write("source", "S1 General arrangement").write("value", "5 3/4");
    EXPECT_EQ(form.field<QLabel>("takenAs")->text(),
              QStringLiteral("Taken as 0′-5¾″ ± 0.030 in, by the default of the basis."));
}

TEST_F(ReadingForm, KeepsTheUncertaintyAsItWasMeant) {
    FilledForm form(this->form());
    form.write("basis", "told from memory")
        .write("value", "about 6 in")
        .write("spreadGiven", "within, to either side");
    EXPECT_TRUE(form.isShown("spread"));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("spread"));
    form.write("spread", "1/2").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_DOUBLE_EQ(*last().halfWidth, 0.5);
    EXPECT_FALSE(last().u);
}

TEST_F(ReadingForm, InterpolatedHasNoDefaultAndAsksForAnUncertainty) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("basis", "between known neighbours").write("value", "6 in").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_EQ(reg(), before);
}

TEST_F(ReadingForm, LimitTakesBoundsInsteadOfAValue) {
    FilledForm form(this->form());
    form.write("basis", "limit");
    EXPECT_FALSE(form.isShown("value"));
    EXPECT_FALSE(form.isShown("spreadGiven"));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("low"));
    form.write("high", "7 in").write("reason", "clears the step").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(std::get<std::string>(*last().high), "7 in");
    EXPECT_FALSE(last().low);
    EXPECT_FALSE(last().value);
}

TEST_F(ReadingForm, GaugedPartAsksForItsFeature) {
    FilledForm form(this->form());
    EXPECT_FALSE(form.isShown("feature"));
    form.write("basis", "gauged on the part");
    EXPECT_TRUE(form.isShown("feature"));
    form.write("source", "S2 Axlebox")
        .write("feature", "original here")
        .write("instrument", "caliper")
        .write("value", "5.748 in")
        .press("keep");
    EXPECT_EQ(last().feature, record::Feature::Original);
    EXPECT_EQ(last().instrument, "caliper");
}

TEST_F(ReadingForm, ParticularTakesWords) {
    FilledForm form(this->form("q1"));
    form.write("basis", "stated");
    EXPECT_FALSE(form.isShown("spreadGiven"));
    form.write("value", "oak, quartered").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(last().of.text, "q1");
    EXPECT_EQ(std::get<std::string>(*last().value), "oak, quartered");
}

TEST_F(ReadingForm, TradeWordsAskWhichSystemAndStayAsTheExcerpt) {
    const auto before = reg();
    FilledForm form(this->form());
    EXPECT_FALSE(form.isShown("table_row"));
    form.write("source", "S1 General arrangement").write("value", "16 gauge");
    EXPECT_TRUE(form.isShown("table_row"));
    form.press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_TRUE(form.refusal().contains(QStringLiteral("which system")))
        << form.refusal().toStdString();
    EXPECT_EQ(reg(), before);
    auto* which = form.field<QComboBox>("table_row");
    which->setCurrentIndex(which->findData(QStringLiteral("bwg-16")));
    form.press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(last().tableRow, "bwg-16");
    EXPECT_EQ(std::get<record::Number>(*last().value).value, 0.065);
    EXPECT_EQ(last().excerpt, "16 gauge");
    EXPECT_EQ(last().u, 0.00188);
}

TEST_F(ReadingForm, CorrectionIsALineOfItsOwnWithItsRow) {
    FilledForm form(this->form());
    EXPECT_TRUE(form.isShown("correction"));
    EXPECT_FALSE(form.isShown("circumstances"));
    form.write("basis", "gauged on the part")
        .write("source", "S2 Axlebox")
        .write("value", "3 in")
        .write("correction", "ash, white, along the rings (tangential) (wm-ash-white-t)");
    EXPECT_TRUE(form.isShown("circumstances"));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("circumstances"));
    form.write("circumstances", "7 to 12").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(std::get<std::string>(*last().value), "3 in");
    ASSERT_EQ(last().corrections.size(), 1U);
    EXPECT_NEAR(*last().corrections[0].factor, 1 + 5 * 0.00274, 1e-12);
    EXPECT_EQ(last().corrections[0].tableRow, "wm-ash-white-t");
}

}  // namespace

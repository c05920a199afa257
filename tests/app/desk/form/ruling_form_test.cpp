#include "app/desk/thread/interval_view.h"
#include "tests/app/desk/form/filled_form.h"

#include <QUndoStack>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using tests::app::DeskOnARegister;
using tests::app::FilledForm;

record::Register leverAndTimber() {
    testsupport::RegisterBuilder builder;
    auto& lever = builder.dimension("d1", "Brake lever");
    lever.critical = true;
    lever.tolerance = 0.125;
    builder.dimension("d2", "Sill");
    builder.particular("q1", "Panel timber");
    builder.source("s1", "General arrangement");
    builder.reading("r1", "d1", record::Basis::Figured, "s1", std::string("15 1/4 in"), 0.02);
    builder.reading("r2", "d2", record::Basis::Figured, "s1", std::string("5 in"), 0.02);
    builder.reading("r3", "q1", record::Basis::Stated, "s1", std::string("oak"));
    return builder.reg;
}

class RulingForm : public ::testing::Test {
  protected:
    void SetUp() override { m_desk.waitForAnalysis(); }

    [[nodiscard]] const record::Register& reg() { return m_desk.open().snapshot()->reg; }
    [[nodiscard]] QDialog* form(const char* on = "d1") {
        return desk::form::rulingForm(m_desk.open(), m_desk.analyst(), {on}, nullptr);
    }

    DeskOnARegister m_desk{leverAndTimber()};
};

TEST_F(RulingForm, ShowsTheEvidenceNow) {
    const FilledForm form(this->form());
    const auto known = form.known();
    EXPECT_TRUE(known.contains(QStringLiteral("1′-3¼″ ± 0.039 in")));
    EXPECT_TRUE(known.contains(QStringLiteral("● F")) ||
                known.contains(QStringLiteral("●\u00A0F")));
    EXPECT_TRUE(known.contains(QStringLiteral("15 1/4 in figured on General arrangement (S1)")));
}

TEST_F(RulingForm, BuildValueStandsInTheShopsFraction) {
    const FilledForm form(this->form());
    EXPECT_EQ(form.field<QLineEdit>("value")->text(), QStringLiteral("1'-3 1/4\""));
    EXPECT_EQ(form.field<QLineEdit>("tolerance")->text(), QString());
    EXPECT_TRUE(form.field<QLineEdit>("tolerance")
                    ->placeholderText()
                    .contains(QStringLiteral("wanted within 1/8\"")));
}

TEST_F(RulingForm, DrawsTheReadingsOfASize) {
    const FilledForm size(this->form());
    EXPECT_TRUE(size.isShown("plot"));
    EXPECT_EQ(size.field<desk::thread::IntervalView>("plot")->plot().readings.size(), 1U);
    const FilledForm fact(this->form("q1"));
    EXPECT_FALSE(fact.isShown("plot"));
}

TEST_F(RulingForm, CautionsWhereSafetyDependsOnIt) {
    const FilledForm lever(this->form());
    EXPECT_TRUE(lever.isShown("caution"));
    EXPECT_TRUE(
        lever.field<QLabel>("caution")->text().contains(QStringLiteral("licensed practice")));
    const FilledForm sill(this->form("d2"));
    EXPECT_FALSE(sill.isShown("caution"));
}

TEST_F(RulingForm, IsNotKeptWithoutAReason) {
    const auto before = reg();
    FilledForm form(this->form());
    form.press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(form.hasFocus("reason"));
    EXPECT_EQ(reg(), before);
}

TEST_F(RulingForm, IsNotKeptWithAValueThatCannotBeRead) {
    const auto before = reg();
    FilledForm form(this->form());
    form.write("value", "a bit over a foot").write("reason", "it fits").press("keep");
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(form.hasFocus("value"));
    EXPECT_EQ(reg(), before);
}

TEST_F(RulingForm, IsNotKeptWithAToleranceThatCannotBeRead) {
    FilledForm form(this->form());
    form.write("tolerance", "little").write("reason", "it fits").press("keep");
    EXPECT_TRUE(form.hasFocus("tolerance"));
    EXPECT_TRUE(reg().rulings.empty());
}

TEST_F(RulingForm, KeepsTheRulingWithTheEvidenceOfNowAndUndoTakesItBack) {
    const auto evidence = testsupport::sizeIn(m_desk.analyst().judged()->analysis, "d1");
    FilledForm form(this->form());
    form.write("value", "15 3/8 in")
        .write("reason", "stock comes so")
        .write("tolerance", "1/16")
        .write("alternativeValue0", "15 1/4 in")
        .write("alternativeReason0", "would have to be planed")
        .press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().rulings.size(), 1U);
    const auto& ruling = reg().rulings.front();
    EXPECT_EQ(std::get<std::string>(ruling.value), "15 3/8 in");
    EXPECT_EQ(ruling.reason, "stock comes so");
    EXPECT_DOUBLE_EQ(*ruling.tolerance, 0.0625);
    ASSERT_EQ(ruling.alternatives.size(), 1U);
    EXPECT_EQ(std::get<std::string>(ruling.alternatives[0].value), "15 1/4 in");
    EXPECT_EQ(ruling.alternatives[0].reason, "would have to be planed");
    ASSERT_TRUE(ruling.evidence);
    EXPECT_EQ(ruling.evidence->value, evidence.value);
    EXPECT_EQ(ruling.evidence->u, evidence.u);
    EXPECT_EQ(ruling.evidence->grade, evidence.grade);
    EXPECT_EQ(ruling.evidence->digest, evidence.digest);
    m_desk.open().undoStack().undo();
    EXPECT_TRUE(reg().rulings.empty());
}

TEST_F(RulingForm, AlternativeWithoutAValueIsRefusedUnderTheAlternatives) {
    FilledForm form(this->form());
    form.write("reason", "stock comes so").press("anotherAlternative");
    form.write("alternativeReason1", "too heavy").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_TRUE(reg().rulings.empty());
}

TEST_F(RulingForm, ParticularIsRuledInWords) {
    FilledForm form(this->form("q1"));
    EXPECT_EQ(form.field<QLineEdit>("value")->text(), QStringLiteral("oak"));
    EXPECT_FALSE(form.isShown("tolerance"));
    form.write("value", "white oak").write("reason", "what is sold as oak here").press("keep");
    ASSERT_EQ(reg().rulings.size(), 1U);
    EXPECT_EQ(std::get<std::string>(reg().rulings[0].value), "white oak");
}

TEST_F(RulingForm, IsNotKeptWhileTheEvidenceIsWorkedOutAnew) {
    FilledForm form(this->form());
    auto sill = reg().dimensions[1];
    auto renamed = sill;
    renamed.name = "Bottom sill";
    m_desk.perform({"rename", {{sill, renamed}}});
    form.write("reason", "stock comes so").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_TRUE(form.refusal().contains(QStringLiteral("worked out anew")));
    EXPECT_TRUE(reg().rulings.empty());
    m_desk.waitForAnalysis();
    form.press("keep");
    EXPECT_EQ(reg().rulings.size(), 1U);
}

TEST_F(RulingForm, FollowsTheEvidenceButKeepsWhatWasTyped) {
    FilledForm form(this->form());
    auto* value = form.field<QLineEdit>("value");
    value->setFocus();
    value->setText({});
    value->insert(QStringLiteral("15 3/8"));
    value->setModified(true);
    m_desk.perform({"set aside", [&] {
                        auto aside = reg().readings[0];
                        aside.setAside = "misread";
                        return std::vector<record::Change>{{reg().readings[0], aside}};
                    }()});
    m_desk.waitForAnalysis();
    EXPECT_TRUE(form.known().contains(QStringLiteral("not known")));
    EXPECT_TRUE(form.known().contains(QStringLiteral("set aside")));
    EXPECT_EQ(value->text(), QStringLiteral("15 3/8"));
}

}  // namespace

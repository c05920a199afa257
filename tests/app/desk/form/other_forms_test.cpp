#include "tests/app/desk/form/filled_form.h"

#include <QCheckBox>
#include <QUndoStack>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using tests::app::DeskOnARegister;
using tests::app::FilledForm;

record::Register smallRegister() {
    testsupport::RegisterBuilder builder;
    builder.dimension("d1", "Sill depth").component = "Body/Underframe";
    builder.dimension("d2", "Brake wheel").component = "Brake";
    builder.pictured("s1", "General arrangement", record::SourceKind::Drawing,
                     record::Authority::Maker);
    builder.reading("r1", "d1", record::Basis::Figured, "s1", std::string("5 3/4 in"));
    return builder.reg;
}

class OtherForms : public ::testing::Test {
  protected:
    void SetUp() override { m_desk.waitForAnalysis(); }
    [[nodiscard]] const record::Register& reg() { return m_desk.open().snapshot()->reg; }
    void undo() { m_desk.open().undoStack().undo(); }

    DeskOnARegister m_desk{smallRegister()};
};

TEST_F(OtherForms, DimensionIsNotKeptWithoutAName) {
    const auto before = reg();
    FilledForm form(desk::form::dimensionForm(m_desk.open(), m_desk.analyst(), nullptr));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("name"));
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_EQ(reg(), before);
}

TEST_F(OtherForms, DimensionIsKeptAsTyped) {
    FilledForm form(desk::form::dimensionForm(m_desk.open(), m_desk.analyst(), nullptr));
    form.write("name", "Wheel diameter")
        .write("component", "Brake/Wheel")
        .write("quantity", "diameter")
        .write("unit", "mm")
        .write("tolerance", "1/8 in");
    form.field<QCheckBox>("critical")->setChecked(true);
    form.press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().dimensions.size(), 3U);
    const auto& made = reg().dimensions.back();
    EXPECT_EQ(made.name, "Wheel diameter");
    EXPECT_EQ(made.component, "Brake/Wheel");
    EXPECT_EQ(made.quantity, record::DimensionQuantity::Diameter);
    EXPECT_EQ(made.unit, "mm");
    EXPECT_DOUBLE_EQ(*made.tolerance, 3.175);
    EXPECT_EQ(made.critical, true);
    undo();
    EXPECT_EQ(reg().dimensions.size(), 2U);
}

TEST_F(OtherForms, DimensionOffersTheUnitsOfItsQuantityAndTheComponentsThereAre) {
    FilledForm form(desk::form::dimensionForm(m_desk.open(), m_desk.analyst(), nullptr));
    form.write("quantity", "angle");
    EXPECT_GE(form.field<QComboBox>("unit")->findText(QStringLiteral("deg")), 0);
    EXPECT_EQ(form.field<QComboBox>("unit")->findText(QStringLiteral("mm")), -1);
    EXPECT_GE(form.field<QComboBox>("component")->findText(QStringLiteral("Body")), 0);
}

TEST_F(OtherForms, SetAsideTellsWhatLosesEvidenceAndNeedsAReason) {
    const auto before = reg();
    FilledForm form(desk::form::setAsideForm(m_desk.open(), {"r1"}, nullptr));
    EXPECT_TRUE(form.field<QLabel>("leans")->text().contains(QStringLiteral("Sill depth")));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("reason"));
    EXPECT_EQ(reg(), before);
    form.write("reason", "a figure of the door").press("keep");
    EXPECT_FALSE(form.isOpen());
    EXPECT_EQ(reg().readings[0].setAside, "a figure of the door");
    undo();
    EXPECT_EQ(reg(), before);
}

TEST_F(OtherForms, AcknowledgeShowsTheFindingAndKeepsTheReason) {
    const auto& findings = m_desk.analyst().judged()->analysis.findings;
    const auto at =
        std::ranges::find(findings, "undetermined", &evidence::judgement::Finding::kind);
    ASSERT_NE(at, findings.end());
    FilledForm form(desk::form::acknowledgeForm(
        m_desk.open(), m_desk.analyst(), static_cast<std::size_t>(at - findings.begin()), nullptr));
    EXPECT_EQ(form.field<QLabel>("finding")->text().toStdString(), at->text);
    EXPECT_EQ(form.field<QLabel>("settle")->text().toStdString(), at->settle);
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("reason"));
    EXPECT_TRUE(reg().acknowledgements.empty());
    const auto finding = *at;
    form.write("reason", "the wheel is not rebuilt").press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().acknowledgements.size(), 1U);
    EXPECT_EQ(reg().acknowledgements[0].finding.kind, finding.kind);
    EXPECT_EQ(reg().acknowledgements[0].finding.on, finding.on);
    EXPECT_EQ(reg().acknowledgements[0].digest, finding.digest);
    EXPECT_EQ(reg().acknowledgements[0].reason, "the wheel is not rebuilt");
    m_desk.waitForAnalysis();
    const auto& anew = m_desk.analyst().judged()->analysis.findings;
    EXPECT_TRUE(
        std::ranges::find(anew, "undetermined", &evidence::judgement::Finding::kind)->acknowledged);
    undo();
    EXPECT_TRUE(reg().acknowledgements.empty());
}

TEST_F(OtherForms, FindingThatIsGoneCannotBeAcknowledged) {
    FilledForm form(desk::form::acknowledgeForm(m_desk.open(), m_desk.analyst(), 1000, nullptr));
    form.write("reason", "seen").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_TRUE(form.refusal().contains(QStringLiteral("gone")));
    EXPECT_TRUE(reg().acknowledgements.empty());
}

TEST_F(OtherForms, PrintedScaleNeedsResolutionAndDrawnScale) {
    const auto before = reg();
    FilledForm form(desk::form::printedScaleForm(m_desk.open(), {"fs1"}, 1, nullptr));
    EXPECT_EQ(form.field<QLabel>("claims")->text(),
              QStringLiteral("The file claims no resolution."));
    form.press("keep");
    EXPECT_TRUE(form.hasFocus("dpi"));
    form.write("dpi", "400").press("keep");
    EXPECT_TRUE(form.hasFocus("drawnScale"));
    form.write("drawnScale", "one to twenty-four").press("keep");
    EXPECT_TRUE(form.hasFocus("drawnScale"));
    EXPECT_FALSE(form.refusal().isEmpty());
    EXPECT_EQ(reg(), before);
    form.write("drawnScale", "1:24").press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().frames.size(), 1U);
    EXPECT_EQ(reg().frames[0].model, record::FrameModel::Printed);
    EXPECT_DOUBLE_EQ(*reg().frames[0].print->dpi, 400);
    EXPECT_DOUBLE_EQ(*reg().frames[0].print->drawnScale, 24);
    EXPECT_FALSE(reg().frames[0].print->uRelative);
    undo();
    EXPECT_EQ(reg(), before);
}

TEST_F(OtherForms, AreNeverModalAndGoWithTheirWindow) {
    const FilledForm form(desk::form::dimensionForm(m_desk.open(), m_desk.analyst(), nullptr));
    const auto* keep = form.field<QPushButton>("keep");
    EXPECT_FALSE(keep->window()->isModal());
    EXPECT_TRUE(keep->window()->testAttribute(Qt::WA_DeleteOnClose));
}

}  // namespace

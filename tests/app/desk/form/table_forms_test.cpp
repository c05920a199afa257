// The forms that take from the trade tables and add to them.
#include "tests/app/desk/form/filled_form.h"

#include <QUndoStack>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using tests::app::DeskOnARegister;
using tests::app::FilledForm;

record::Register sillOfAsh() {
    testsupport::RegisterBuilder builder;
    builder.dimension("d1", "Sill volume").quantity = record::DimensionQuantity::Volume;
    builder.dimension("d2", "Sill mass").quantity = record::DimensionQuantity::Mass;
    builder.dimension("d3", "Post mass").quantity = record::DimensionQuantity::Mass;
    builder.source("s1", "Siding, gauged", record::SourceKind::Part);
    return builder.reg;
}

class TableForms : public ::testing::Test {
  protected:
    [[nodiscard]] const record::Register& reg() { return m_desk.open().snapshot()->reg; }

    DeskOnARegister m_desk{sillOfAsh()};
};

TEST_F(TableForms, MassIsWorkedOutAndTakenBackWhole) {
    const auto before = reg();
    FilledForm form(desk::form::massForm(m_desk.open(), {"d2"}, nullptr));
    EXPECT_FALSE(form.isShown("density"));
    form.write("volume", "D1").press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_TRUE(form.hasFocus("table_row"));
    form.write("table_row", "ash, white (dn-ash-white)");
    EXPECT_TRUE(form.field<QLabel>("density")->text().contains(QStringLiteral("41.9 lb/ft3")));
    EXPECT_FALSE(form.isShown("same_stock"));
    form.write("reason", "grain of the surviving end").press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_EQ(reg().relations.size(), 1U);
    EXPECT_EQ(reg().relations[0].formula, "D2 = (D1) * 41.9 lb / 1 ft3");
    EXPECT_TRUE(reg().relations[0].reason->ends_with("grain of the surviving end"));
    EXPECT_EQ(reg().sharedErrors.size(), 1U);
    m_desk.open().undoStack().undo();
    EXPECT_EQ(reg(), before);
}

TEST_F(TableForms, SecondPartMayBeOfTheSameBoard) {
    FilledForm first(desk::form::massForm(m_desk.open(), {"d2"}, nullptr));
    first.write("volume", "D1").write("table_row", "dn-ash-white").press("keep");
    FilledForm second(desk::form::massForm(m_desk.open(), {"d3"}, nullptr));
    second.write("volume", "D1 / 2").write("table_row", "dn-ash-white");
    EXPECT_TRUE(second.isShown("same_stock"));
    second.write("same_stock", "the same as D2").press("keep");
    EXPECT_FALSE(second.isOpen());
    ASSERT_EQ(reg().sharedErrors.size(), 1U);
    EXPECT_EQ(reg().sharedErrors[0].on.size(), 2U);
}

TEST_F(TableForms, OwnRowNeedsItsSource) {
    const auto before = reg();
    FilledForm form(desk::form::tableRowForm(m_desk.open(), nullptr));
    form.write("name", "Rail at the siding").write("value", "36 3/16").write("u", "0.05");
    form.press("keep");
    EXPECT_TRUE(form.isOpen());
    EXPECT_TRUE(form.hasFocus("source"));
    EXPECT_EQ(reg(), before);
    form.write("source", "S1 Siding, gauged").press("keep");
    EXPECT_FALSE(form.isOpen());
    ASSERT_TRUE(reg().archive.settings);
    ASSERT_EQ(reg().archive.settings->tableRows.size(), 1U);
    EXPECT_DOUBLE_EQ(reg().archive.settings->tableRows[0].value, 36.1875);
}

TEST_F(TableForms, UnitsFollowWhatTheRowSays) {
    FilledForm form(desk::form::tableRowForm(m_desk.open(), nullptr));
    EXPECT_EQ(form.field<QComboBox>("unit")->itemText(0), QStringLiteral("in"));
    form.write("kind", "what a material weighs");
    EXPECT_EQ(form.field<QComboBox>("unit")->itemText(0), QStringLiteral("lb/ft3"));
}

}  // namespace

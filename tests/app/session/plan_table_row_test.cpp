#include "evidence-core/exchange/plan_import.h"
#include "evidence-core/exchange/write_document.h"
#include "evidence-core/trade/tables.h"
#include "tests/app/session/planned_archive.h"

namespace planning {
namespace {

using app::session::planTableRow;

record::TableRow siding() {
    record::TableRow row;
    row.name = " Rail at the siding ";
    row.measures = "distance between inner faces of rail heads";
    row.value = 36.2;
    row.unit = "in";
    row.u = 0.05;
    row.source = {"s2"};
    return row;
}

TEST(PlanTableRow, AddsARowThatTheTablesThenHave) {
    PlannedArchive archive;
    archive.perform(planTableRow(archive.context(), siding()));
    const auto& rows = archive.reg().archive.settings->tableRows;
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].name, "Rail at the siding");
    EXPECT_FALSE(rows[0].id.empty());
    EXPECT_NE(trade::Tables(archive.reg()).find(rows[0].id), nullptr);
}

TEST(PlanTableRow, GoesThroughAnExportAndBack) {
    PlannedArchive archive;
    archive.perform(planTableRow(archive.context(), siding()));
    const auto text = exchange::writeDocument(archive.reg());
    const auto read = exchange::readRegister(text);
    ASSERT_TRUE(read) << read.error().place << read.error().help;
    EXPECT_EQ(read->archive, archive.reg().archive);
    EXPECT_EQ(exchange::writeDocument(*read), text);
}

TEST(PlanTableRow, IsTakenBack) {
    PlannedArchive archive;
    const auto before = archive.reg();
    archive.takeBack(archive.perform(planTableRow(archive.context(), siding())));
    EXPECT_EQ(archive.reg(), before);
}

TEST(PlanTableRow, WithoutASourceIsRefused) {
    const auto reg = smallRegister();
    auto row = siding();
    row.source = {};
    expectRefused(planTableRow(contextOf(reg), row), Code::MissingKey, "source");
    row.source = {"s9"};
    expectRefused(planTableRow(contextOf(reg), row), Code::MissingTarget, "source");
}

TEST(PlanTableRow, RefusesAtTheFieldsOfTheForm) {
    const auto reg = smallRegister();
    auto row = siding();
    row.unit = "furlong";
    expectRefused(planTableRow(contextOf(reg), row), Code::BadUnit, "unit");
    row = siding();
    row.u = 0;
    expectRefused(planTableRow(contextOf(reg), row), Code::BadValue, "u");
    row = siding();
    row.id = "rg-standard";
    expectRefused(planTableRow(contextOf(reg), row), Code::DuplicateId, "id");
}

TEST(PlanTableRow, AnIdIsUsedOnce) {
    PlannedArchive archive;
    auto row = siding();
    row.id = "siding";
    archive.perform(planTableRow(archive.context(), row));
    expectRefused(planTableRow(archive.context(), row), Code::DuplicateId, "id");
}

}  // namespace
}  // namespace planning

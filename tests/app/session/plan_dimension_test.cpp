#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::DimensionDraft;
using app::session::planDimension;

class PlanDimension : public testing::Test {
  protected:
    PlanDimension() { m_draft.name = "wheel diameter"; }
    Result<record::ChangeSet> plan() { return planDimension(contextOf(m_reg), m_draft); }

    record::Register m_reg = smallRegister();
    DimensionDraft m_draft;
};

TEST_F(PlanDimension, MakesADimensionWithTheNextFreeCode) {
    m_reg.dimensions[1].code = "D12";
    m_draft.component = " Truck ";
    m_draft.quantity = record::DimensionQuantity::Diameter;
    m_draft.unit = "mm";
    m_draft.tolerance = 1.5;
    m_draft.critical = true;
    const auto set = plan();
    const auto dimension = theOne<record::Dimension>(set);
    EXPECT_EQ(dimension.code, "D13");
    EXPECT_EQ(dimension.component, "Truck");
    EXPECT_EQ(dimension.quantity, record::DimensionQuantity::Diameter);
    EXPECT_EQ(dimension.unit, "mm");
    EXPECT_EQ(dimension.tolerance, 1.5);
    EXPECT_EQ(dimension.critical, true);
    EXPECT_EQ(set->what, "add D13");
}

TEST_F(PlanDimension, NeedsAName) {
    m_draft.name = "\n";
    expectRefused(plan(), Code::MissingKey, "name");
}

TEST_F(PlanDimension, RefusesANameTakenInItsComponent) {
    m_draft.name = "hoop width";
    m_draft.component = "Body";
    expectRefused(plan(), Code::DuplicateId, "name");
    m_draft.component = "Trailer";
    EXPECT_TRUE(plan());
}

TEST_F(PlanDimension, RefusesAUnitOrToleranceThatMakesNoSense) {
    m_draft.unit = "lb";
    expectRefused(plan(), Code::BadUnit, "unit");
    m_draft.unit = " ";
    m_draft.tolerance = -1;
    expectRefused(plan(), Code::BadValue, "tolerance");
}

}  // namespace
}  // namespace planning

#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planPrintedScale;
using app::session::PrintedScaleDraft;

class PlanPrintedScale : public testing::Test {
  protected:
    PlanPrintedScale() {
        m_draft.file = {"f1"};
        m_draft.page = 2;
        m_draft.print.dpi = 300;
        m_draft.print.drawnScale = 24;
    }
    Result<record::ChangeSet> plan() { return planPrintedScale(contextOf(m_reg), m_draft); }

    record::Register m_reg = smallRegister();
    PrintedScaleDraft m_draft;
};

TEST_F(PlanPrintedScale, MakesAPrintedScaleOfThePage) {
    m_draft.print.uRelative = 0.002;
    const auto frame = theOne<record::Frame>(plan());
    EXPECT_EQ(frame.model, record::FrameModel::Printed);
    EXPECT_EQ(frame.page, 2);
    EXPECT_EQ(*frame.print, m_draft.print);
}

TEST_F(PlanPrintedScale, NeedsResolutionAndDrawnScale) {
    m_draft.print.dpi.reset();
    expectRefused(plan(), Code::MissingKey, "print/dpi");
    m_draft.print.dpi = 300;
    m_draft.print.drawnScale.reset();
    expectRefused(plan(), Code::MissingKey, "print/drawn_scale");
}

TEST_F(PlanPrintedScale, RefusesNumbersThatGiveNoScale) {
    m_draft.print.dpi = 0;
    expectRefused(plan(), Code::BadValue, "print/dpi");
    m_draft.print.dpi = 300;
    m_draft.print.drawnScale = -24;
    expectRefused(plan(), Code::BadValue, "print/drawn_scale");
    m_draft.print.drawnScale = 24;
    m_draft.print.uRelative = -0.1;
    expectRefused(plan(), Code::BadValue, "print/u_relative");
}

TEST_F(PlanPrintedScale, RefusesAPageThatIsNotThere) {
    m_draft.page = 3;
    expectRefused(plan(), Code::BadValue, "page");
    m_draft.file = {"f9"};
    expectRefused(plan(), Code::MissingTarget, "file");
}

}  // namespace
}  // namespace planning

#include "evidence-core/judgement/analyse.h"
#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::GuessDraft;
using app::session::planGuess;

class PlanGuess : public testing::Test {
  protected:
    PlanGuess() {
        m_draft.of = {"d3"};
        m_draft.low = "3 in";
        m_draft.high = "4 1/2 in";
        m_draft.reason = "it has to clear the sill";
    }
    Result<record::ChangeSet> plan() { return planGuess(contextOf(m_reg), m_draft); }

    record::Register m_reg = smallRegister();
    GuessDraft m_draft;
};

TEST_F(PlanGuess, IsTheMiddleOfItsBoundsWithHalfTheirDistance) {
    const auto reading = theOne<record::Reading>(plan());
    EXPECT_EQ(reading.basis, record::Basis::Guessed);
    EXPECT_EQ(std::get<record::Number>(*reading.value).value, 3.75);
    EXPECT_EQ(reading.halfWidth, 0.75);
    EXPECT_EQ(reading.unit, "in");
    EXPECT_FALSE(reading.shape);
    EXPECT_EQ(reading.by, kAnna);
}

TEST_F(PlanGuess, ReasonHoldsAllThatWasSaidLineByLine) {
    m_draft.low = "3";
    m_draft.considered = "a hoop of 5 in";
    m_draft.wouldSettle = "the second photograph";
    EXPECT_EQ(theOne<record::Reading>(plan()).reason,
              "it has to clear the sill\n"
              "Between 3 in and 4 1/2 in.\n"
              "Considered: a hoop of 5 in\n"
              "Would settle it: the second photograph");
    m_draft.considered = " ";
    m_draft.wouldSettle = "";
    EXPECT_EQ(theOne<record::Reading>(plan()).reason,
              "it has to clear the sill\nBetween 3 in and 4 1/2 in.");
}

TEST_F(PlanGuess, BoundsMayBeInAnyUnitAndCountInTheDimensions) {
    m_reg.dimensions[2].unit = "mm";
    m_draft.low = "60";
    m_draft.high = "4 in";
    const auto reading = theOne<record::Reading>(plan());
    EXPECT_EQ(reading.unit, "mm");
    EXPECT_DOUBLE_EQ(std::get<record::Number>(*reading.value).value, (60 + 101.6) / 2);
    EXPECT_DOUBLE_EQ(*reading.halfWidth, (101.6 - 60) / 2);
    EXPECT_NE(reading.reason->find("Between 60 mm and 4 in."), std::string::npos);
}

TEST_F(PlanGuess, RestsOnAGuessOnceAnalysed) {
    const auto set = plan();
    ASSERT_TRUE(set);
    const auto analysis = judgement::analyse(record::applied(m_reg, *set));
    ASSERT_TRUE(analysis);
    const auto& sill = analysis->dimensions[2];
    EXPECT_EQ(sill.id.text, "d3");
    EXPECT_TRUE(sill.restsOnGuess);
    EXPECT_NEAR(*sill.value, 3.75, 1e-12);
    EXPECT_EQ(sill.grade, record::Grade::OurCall);
}

TEST_F(PlanGuess, NeedsBothBoundsAndAReason) {
    m_draft.low = " ";
    expectRefused(plan(), Code::MissingKey, "low");
    m_draft.low = "3 in";
    m_draft.high = "";
    expectRefused(plan(), Code::MissingKey, "high");
    m_draft.high = "4 in";
    m_draft.reason = "\t ";
    expectRefused(plan(), Code::MissingKey, "reason");
}

TEST_F(PlanGuess, RefusesBoundsThatLeaveNoRoom) {
    m_draft.high = "3 in";
    expectRefused(plan(), Code::BadValue, "high");
    m_draft.high = "2 in";
    expectRefused(plan(), Code::BadValue, "high");
}

TEST_F(PlanGuess, RefusesBoundsThatCannotBeRead) {
    m_draft.low = "thin";
    expectRefused(plan(), Code::BadValue, "low");
    m_draft.low = "3 in";
    m_draft.high = "4 lb";
    expectRefused(plan(), Code::BadUnit, "high");
}

TEST_F(PlanGuess, ParticularIsGuessedInWords) {
    m_draft = {};
    m_draft.of = {"q1"};
    expectRefused(plan(), Code::MissingKey, "value");
    m_draft.value = " ash ";
    expectRefused(plan(), Code::MissingKey, "reason");
    m_draft.reason = "what bends best";
    m_draft.considered = "oak";
    const auto reading = theOne<record::Reading>(plan());
    EXPECT_EQ(reading.basis, record::Basis::Guessed);
    EXPECT_EQ(std::get<std::string>(*reading.value), "ash");
    EXPECT_EQ(reading.reason, "what bends best\nConsidered: oak");
    EXPECT_FALSE(reading.halfWidth || reading.unit);
}

TEST_F(PlanGuess, IsForWhatIsOnRecord) {
    m_draft.of = {"d9"};
    expectRefused(plan(), Code::MissingTarget, "of");
}

}  // namespace
}  // namespace planning

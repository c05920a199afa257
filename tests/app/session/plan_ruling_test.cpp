#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planRuling;
using app::session::RulingDraft;

class PlanRuling : public testing::Test {
  protected:
    PlanRuling() {
        m_draft.on = {"d1"};
        m_draft.value = "38 1/4";
        m_draft.reason = "agrees with both hoops";
    }
    Result<record::ChangeSet> plan() { return planRuling(contextOf(m_reg), m_draft); }

    void offer(const std::string& value, const std::string& reason) {
        auto& other = m_draft.alternatives.emplace_back();
        other.value = value;
        other.reason = reason;
    }

    record::Register m_reg = smallRegister();
    RulingDraft m_draft;
};

TEST_F(PlanRuling, KeepsTheTextAndTheUnitItWasTakenIn) {
    m_draft.tolerance = 0.0625;
    m_draft.evidence = record::EvidenceState{38.2, 0.1, record::Grade::Figured, "abc"};
    offer("38 in", "the photograph");
    const auto set = plan();
    const auto ruling = theOne<record::Ruling>(set);
    EXPECT_EQ(std::get<std::string>(ruling.value), "38 1/4");
    EXPECT_EQ(ruling.unit, "in");
    EXPECT_EQ(ruling.reason, "agrees with both hoops");
    EXPECT_EQ(ruling.by, kAnna);
    EXPECT_EQ(ruling.at, kNow);
    EXPECT_EQ(ruling.tolerance, 0.0625);
    EXPECT_EQ(ruling.evidence, m_draft.evidence);
    EXPECT_EQ(ruling.alternatives, m_draft.alternatives);
    EXPECT_FALSE(ruling.supersedes);
    EXPECT_EQ(set->what, "rule D1");
    m_draft.value = "970 mm";
    EXPECT_FALSE(theOne<record::Ruling>(plan()).unit);
}

TEST_F(PlanRuling, SupersedesTheOneInForce) {
    const auto first = plan();
    ASSERT_TRUE(first);
    m_reg = record::applied(m_reg, *first);
    const auto second = plan();
    EXPECT_EQ(theOne<record::Ruling>(second).supersedes, m_reg.rulings[0].id);
    m_reg = record::applied(m_reg, *second);
    EXPECT_EQ(theOne<record::Ruling>(plan()).supersedes, m_reg.rulings[1].id);
    m_draft.on = {"d3"};
    EXPECT_FALSE(theOne<record::Ruling>(plan()).supersedes);
}

TEST_F(PlanRuling, RulesParticularsByWords) {
    m_draft.on = {"q1"};
    m_draft.value = "white oak";
    const auto ruling = theOne<record::Ruling>(plan());
    EXPECT_EQ(std::get<std::string>(ruling.value), "white oak");
    EXPECT_FALSE(ruling.unit);
    m_draft.value = " ";
    expectRefused(plan(), Code::MissingKey, "value");
}

TEST_F(PlanRuling, NeedsAValueAndAReason) {
    m_draft.reason = "  ";
    expectRefused(plan(), Code::MissingKey, "reason");
    m_draft.value = "";
    expectRefused(plan(), Code::MissingKey, "value");
}

TEST_F(PlanRuling, RefusesWhatCannotBeRead) {
    m_draft.value = "about right";
    expectRefused(plan(), Code::BadValue, "value");
    m_draft.value = "12 deg";
    expectRefused(plan(), Code::BadUnit, "value");
    m_draft.value = "38 in";
    m_draft.tolerance = -0.1;
    expectRefused(plan(), Code::BadValue, "tolerance");
    m_draft.tolerance.reset();
    evidence::record::Alternative wider;
    wider.value = std::string("wider");
    m_draft.alternatives.push_back(wider);
    expectRefused(plan(), Code::BadValue, "alternatives/0/value");
    m_draft.alternatives[0].value = std::string(" ");
    expectRefused(plan(), Code::MissingKey, "alternatives/0/value");
}

TEST_F(PlanRuling, RefusesATargetThatIsNotThere) {
    m_draft.on = {"s1"};
    expectRefused(plan(), Code::MissingTarget, "on");
}

TEST_F(PlanRuling, RefusesATimeThatIsNone) {
    expectRefused(planRuling({m_reg, kAnna, "this morning"}, m_draft), Code::BadDate, "at");
}

}  // namespace
}  // namespace planning

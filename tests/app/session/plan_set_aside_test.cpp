#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planSetAside;

class PlanSetAside : public testing::Test {
  protected:
    PlanSetAside() {
        record::Reading reading;
        reading.id = {"r1"};
        reading.of = {"d1"};
        reading.value = std::string("38 in");
        m_reg.readings.push_back(reading);
        record::Mark mark;
        mark.id = {"m1"};
        mark.file = {"f2"};
        mark.kind = record::MarkKind::Segment;
        mark.points = {{1, 1}, {9, 1}};
        m_reg.marks.push_back(mark);
        record::Frame frame;
        frame.id = {"g1"};
        frame.file = {"f2"};
        m_reg.frames.push_back(frame);
        record::Relation relation;
        relation.id = {"l1"};
        relation.formula = "D1 = 2 * D3";
        m_reg.relations.push_back(relation);
        record::SharedError error;
        error.id = {"e1"};
        error.label = "long rule";
        error.on.push_back({{"r1"}, {}});
        m_reg.sharedErrors.push_back(error);
    }
    Result<record::ChangeSet> plan(const std::string& id, const std::string& reason = "misread") {
        return planSetAside(contextOf(m_reg), {id}, reason);
    }

    record::Register m_reg = smallRegister();
};

TEST_F(PlanSetAside, KeepsTheRecordAndSaysWhy) {
    const auto set = plan("r1", " misread ");
    ASSERT_TRUE(set) << set.error().help;
    auto expected = m_reg;
    expected.readings[0].setAside = "misread";
    EXPECT_EQ(record::applied(m_reg, *set), expected);
}

TEST_F(PlanSetAside, TakesAllThatCanBeEvidence) {
    for (const char* id : {"r1", "m1", "g1", "l1", "e1", "s1", "d3", "q1"}) {
        const auto set = plan(id);
        ASSERT_TRUE(set) << id << ": " << set.error().help;
        EXPECT_EQ(set->changes.size(), 1U);
        EXPECT_FALSE(record::applied(m_reg, *set) == m_reg) << id;
    }
}

TEST_F(PlanSetAside, CallsRecordsByTheirCode) {
    EXPECT_EQ(plan("s1")->what, "set aside S1");
    EXPECT_EQ(plan("m1")->what, "set aside mark m1");
}

TEST_F(PlanSetAside, NeedsAReason) {
    expectRefused(plan("r1", " "), Code::MissingKey, "reason");
}

TEST_F(PlanSetAside, RefusesWhatIsNotThereOrNeverSetAside) {
    expectRefused(plan("r9"), Code::MissingTarget, "record");
    expectRefused(plan("p1"), Code::WrongUse, "record");
    expectRefused(plan("f1"), Code::WrongUse, "record");
    m_reg.readings[0].setAside = "misread";
    expectRefused(plan("r1"), Code::WrongUse, "record");
}

}  // namespace
}  // namespace planning

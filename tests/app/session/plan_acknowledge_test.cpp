#include "evidence-core/judgement/analyse.h"
#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planAcknowledge;

class PlanAcknowledge : public testing::Test {
  protected:
    Result<record::ChangeSet> plan(const std::string& kind, const std::vector<record::AnyId>& on,
                                   const std::string& digest, const std::string& reason) {
        return planAcknowledge(contextOf(m_reg), kind, on, digest, reason);
    }
    record::Register m_reg = smallRegister();
};

TEST_F(PlanAcknowledge, AcknowledgesTheFindingAsItStands) {
    const auto before = judgement::analyse(m_reg);
    ASSERT_TRUE(before);
    ASSERT_FALSE(before->findings.empty());
    const auto& finding = before->findings.front();
    ASSERT_FALSE(finding.acknowledged);
    const auto set = plan(finding.kind, finding.on, finding.digest, " no evidence yet ");
    const auto seen = theOne<record::Acknowledgement>(set);
    EXPECT_EQ(seen.reason, "no evidence yet");
    EXPECT_EQ(seen.by, kAnna);
    EXPECT_EQ(seen.at, kNow);
    const auto after = judgement::analyse(record::applied(m_reg, *set));
    ASSERT_TRUE(after);
    const auto found = std::ranges::find_if(after->findings, [&](const judgement::Finding& f) {
        return f.kind == finding.kind && f.on == finding.on;
    });
    ASSERT_NE(found, after->findings.end());
    EXPECT_TRUE(found->acknowledged);
}

TEST_F(PlanAcknowledge, NeedsAReason) {
    expectRefused(plan("undetermined", {{"d1"}}, "abc", " "), Code::MissingKey, "reason");
}

TEST_F(PlanAcknowledge, RefusesAFindingNobodyCanRaise) {
    expectRefused(plan("ugly", {{"d1"}}, "abc", "seen"), Code::BadValue, "kind");
    expectRefused(plan("undetermined", {}, "", "seen"), Code::MissingKey, "on");
    expectRefused(plan("undetermined", {{"d1"}, {"d9"}}, "abc", "seen"), Code::MissingTarget,
                  "on/1");
}

}  // namespace
}  // namespace planning

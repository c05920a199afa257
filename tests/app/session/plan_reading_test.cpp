#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planReading;

class PlanReading : public testing::Test {
  protected:
    PlanReading() {
        m_reading.of = {"d1"};
        m_reading.basis = record::Basis::Figured;
        m_reading.source = record::SourceId{"s1"};
        m_reading.value = std::string("3'-2\"");
    }
    Result<record::ChangeSet> plan() { return planReading(contextOf(m_reg), m_reading); }

    record::Register m_reg = smallRegister();
    record::Reading m_reading;
};

TEST_F(PlanReading, KeepsWhatWasTypedAndSaysWhoAndWhen) {
    const auto set = plan();
    const auto reading = theOne<record::Reading>(set);
    EXPECT_FALSE(reading.id.empty());
    EXPECT_EQ(std::get<std::string>(*reading.value), "3'-2\"");
    EXPECT_EQ(reading.by, kAnna);
    EXPECT_EQ(reading.on, "2026-05-01");
    EXPECT_EQ(set->what, "figured reading of D1");
}

TEST_F(PlanReading, KeepsWhoeverMadeItThen) {
    m_reg.people.push_back({{"p2"}, "Bert", {}, {}});
    m_reading.by = record::PersonId{"p2"};
    m_reading.on = "1987";
    const auto reading = theOne<record::Reading>(plan());
    EXPECT_EQ(reading.by->text, "p2");
    EXPECT_EQ(reading.on, "1987");
}

TEST_F(PlanReading, SpeaksOfParticularsToo) {
    m_reading.of = {"q1"};
    m_reading.value = std::string("oak");
    EXPECT_EQ(std::get<std::string>(*theOne<record::Reading>(plan()).value), "oak");
}

TEST_F(PlanReading, BlankFieldsSayNothing) {
    m_reading.reason = " ";
    m_reading.low = std::string("");
    const auto reading = theOne<record::Reading>(plan());
    EXPECT_FALSE(reading.reason);
    EXPECT_FALSE(reading.low);
}

TEST_F(PlanReading, AGuessGoesAnotherWay) {
    m_reading.basis = record::Basis::Guessed;
    expectRefused(plan(), Code::WrongUse, "basis");
}

TEST_F(PlanReading, NeedsAValue) {
    m_reading.value = std::string(" ");
    expectRefused(plan(), Code::MissingKey, "value");
    m_reading.basis = record::Basis::Limit;
    expectRefused(plan(), Code::MissingKey, "low");
}

TEST_F(PlanReading, NeedsMarkAndScaleTogether) {
    MarkDraft draft = segment(100);
    record::Mark mark;
    mark.id = {"m1"};
    mark.file = draft.file;
    mark.kind = draft.kind;
    mark.points = draft.points;
    m_reg.marks.push_back(mark);
    m_reading.basis = record::Basis::Scaled;
    m_reading.value.reset();
    m_reading.mark = record::MarkId{"m1"};
    expectRefused(plan(), Code::MissingKey, "frame");
    record::Frame frame;
    frame.id = {"g1"};
    frame.file = {"f2"};
    m_reg.frames.push_back(frame);
    m_reading.frame = record::FrameId{"g1"};
    EXPECT_TRUE(plan());
    m_reading.mark.reset();
    expectRefused(plan(), Code::MissingKey, "mark");
}

TEST_F(PlanReading, AnInterpolatedValueNeedsItsUncertainty) {
    m_reading.basis = record::Basis::Interpolated;
    expectRefused(plan(), Code::MissingKey, "half_width");
    m_reading.halfWidth = 0.25;
    EXPECT_TRUE(plan());
}

TEST_F(PlanReading, RefusesWhatCannotBeRead) {
    m_reading.value = std::string("three feet");
    expectRefused(plan(), Code::BadValue, "value");
    m_reading.value = std::string("3 lb");
    expectRefused(plan(), Code::BadUnit, "value");
    m_reading.value = record::Number{3, "3"};
    m_reading.unit = "deg";
    expectRefused(plan(), Code::BadUnit, "unit");
    m_reading.unit.reset();
    m_reading.on = "last week";
    expectRefused(plan(), Code::BadDate, "on");
}

TEST_F(PlanReading, RefusesLimitsTheWrongWayRound) {
    m_reading.basis = record::Basis::Limit;
    m_reading.value.reset();
    m_reading.low = std::string("4 in");
    m_reading.high = std::string("3 in");
    expectRefused(plan(), Code::BadValue, "high");
}

TEST_F(PlanReading, RefusesCorrectionsWithoutAnAmount) {
    m_reading.corrections.push_back({});
    m_reading.corrections[0].label = "shrinkage";
    expectRefused(plan(), Code::MissingKey, "corrections/0");
}

TEST_F(PlanReading, RefusesWhatItRefersToButIsNotThere) {
    m_reading.source = record::SourceId{"s9"};
    expectRefused(plan(), Code::MissingTarget, "source");
    m_reading.of = {"d9"};
    expectRefused(plan(), Code::MissingTarget, "of");
    m_reading.of = {"d1"};
    m_reg.dimensions[0].setAside = "a duplicate";
    expectRefused(plan(), Code::WrongUse, "of");
}

}  // namespace
}  // namespace planning

#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::planScale;
using app::session::ScaleDraft;

class PlanScale : public testing::Test {
  protected:
    PlanScale() {
        m_draft.mark = segment(400);
        m_draft.length.value = std::string("4'-8 1/2\"");
        m_draft.length.basis = record::Basis::Stated;
        m_draft.length.source = record::SourceId{"s1"};
    }
    Result<record::ChangeSet> plan() { return planScale(contextOf(m_reg), m_draft); }

    /// Gives the page a scale first.
    record::FrameId addScale() {
        const auto first = plan();
        EXPECT_TRUE(first);
        m_reg = record::applied(m_reg, *first);
        return m_reg.frames.back().id;
    }

    record::Register m_reg = smallRegister();
    ScaleDraft m_draft;
};

TEST_F(PlanScale, MakesTheMarkAndAUniformScaleWithTheLengthAsTyped) {
    m_draft.parallelWithin = 2;
    const auto set = plan();
    const auto mark = theOne<record::Mark>(set);
    const auto frame = theOne<record::Frame>(set);
    EXPECT_EQ(mark.points, m_draft.mark.points);
    EXPECT_EQ(mark.uPx, 0.3);
    EXPECT_EQ(frame.model, record::FrameModel::Uniform);
    EXPECT_EQ(frame.file.text, "f2");
    EXPECT_EQ(frame.parallelWithin, 2);
    ASSERT_EQ(frame.references.size(), 1U);
    EXPECT_EQ(frame.references[0].mark, mark.id);
    EXPECT_EQ(std::get<std::string>(*frame.references[0].length.value), "4'-8 1/2\"");
    EXPECT_EQ(set->what, "set scale on page 1 of S2");
}

TEST_F(PlanScale, AddsAReferenceToAScale) {
    const auto id = addScale();
    m_draft.frame = id;
    m_draft.mark = segment(200);
    m_draft.length = {};
    m_draft.length.dimension = record::DimensionId{"d1"};
    const auto set = plan();
    EXPECT_TRUE(made<record::Frame>(set).empty());
    const auto after = record::applied(m_reg, *set);
    ASSERT_EQ(after.frames.size(), 1U);
    ASSERT_EQ(after.frames[0].references.size(), 2U);
    EXPECT_EQ(after.frames[0].references[1].length.dimension->text, "d1");
}

TEST_F(PlanScale, BlankFieldsSayNothing) {
    m_draft.length.reason = "  ";
    m_draft.length.unit = "";
    const auto frame = theOne<record::Frame>(plan());
    EXPECT_FALSE(frame.references[0].length.reason);
    EXPECT_FALSE(frame.references[0].length.unit);
}

TEST_F(PlanScale, NeedsALength) {
    m_draft.length.value.reset();
    expectRefused(plan(), Code::MissingKey, "length/value");
    m_draft.length.value = std::string(" \t");
    expectRefused(plan(), Code::MissingKey, "length/value");
}

TEST_F(PlanScale, RefusesALengthThatCannotBeRead) {
    m_draft.length.value = std::string("4 ft wide");
    expectRefused(plan(), Code::BadValue, "length/value");
    m_draft.length.value = std::string("4 lb");
    expectRefused(plan(), Code::BadUnit, "length/value");
    m_draft.length.value = std::string("0 in");
    expectRefused(plan(), Code::BadValue, "length/value");
}

TEST_F(PlanScale, RefusesAValueAndADimensionAtOnce) {
    m_draft.length.dimension = record::DimensionId{"d1"};
    expectRefused(plan(), Code::WrongUse, "length/dimension");
}

TEST_F(PlanScale, RefusesADimensionThatGivesNoScale) {
    m_draft.length = {};
    m_draft.length.dimension = record::DimensionId{"d2"};
    expectRefused(plan(), Code::BadUnit, "length/dimension");
    m_draft.length.dimension = record::DimensionId{"d9"};
    expectRefused(plan(), Code::MissingTarget, "length/dimension");
    m_reg.dimensions[0].setAside = "a duplicate";
    m_draft.length.dimension = record::DimensionId{"d1"};
    expectRefused(plan(), Code::WrongUse, "length/dimension");
}

TEST_F(PlanScale, RefusesUncertaintiesThatMakeNoSense) {
    m_draft.length.u = -1;
    expectRefused(plan(), Code::BadValue, "length/u");
    m_draft.length.u = 0.1;
    m_draft.length.halfWidth = 0.2;
    expectRefused(plan(), Code::WrongUse, "length/u");
    m_draft.length.u.reset();
    m_draft.length.halfWidth.reset();
    m_draft.length.basis = record::Basis::Interpolated;
    expectRefused(plan(), Code::MissingKey, "length/u");
    m_draft.length.basis = record::Basis::Stated;
    m_draft.length.source = record::SourceId{"s9"};
    expectRefused(plan(), Code::MissingTarget, "length/source");
    m_draft.length.source.reset();
    m_draft.parallelWithin = -3;
    expectRefused(plan(), Code::BadValue, "parallel_within");
}

TEST_F(PlanScale, RefusesAMarkWithoutALength) {
    m_draft.mark.points = {{5, 5}, {5, 5}};
    expectRefused(plan(), Code::BadValue, "mark/points");
    m_draft.mark.points = {{5, 5}};
    expectRefused(plan(), Code::BadValue, "mark/points");
    m_draft.mark.kind = record::MarkKind::Point;
    expectRefused(plan(), Code::BadValue, "mark/points");
}

TEST_F(PlanScale, RefusesAPageThatIsNotThere) {
    m_draft.mark = segment(400, "f9");
    expectRefused(plan(), Code::MissingTarget, "mark/file");
    m_draft.mark = segment(400, "f1", 3);
    expectRefused(plan(), Code::BadValue, "mark/page");
    m_draft.mark = segment(400, "f1", 0);
    expectRefused(plan(), Code::BadValue, "mark/page");
}

TEST_F(PlanScale, RefusesAScaleThatCannotTakeTheReference) {
    m_draft.frame = record::FrameId{"g9"};
    expectRefused(plan(), Code::MissingTarget, "frame");
    m_draft.frame.reset();
    m_draft.frame = addScale();
    m_draft.mark = segment(400, "f1");
    expectRefused(plan(), Code::WrongUse, "frame");
    m_reg.frames[0].setAside = "oblique";
    m_draft.mark = segment(400);
    expectRefused(plan(), Code::WrongUse, "frame");
}

}  // namespace
}  // namespace planning

#include "tests/app/session/plan_register.h"

namespace planning {
namespace {

using app::session::MeasureDraft;
using app::session::planMeasure;

class PlanMeasure : public testing::Test {
  protected:
    PlanMeasure() {
        record::Frame frame;
        frame.id = {"g1"};
        frame.file = {"f2"};
        frame.page = 1;
        m_reg.frames.push_back(frame);
        m_draft.mark = segment(250);
        m_draft.frame = {"g1"};
        m_draft.name = "door width";
    }
    Result<record::ChangeSet> plan() { return planMeasure(contextOf(m_reg), m_draft); }

    record::Register m_reg = smallRegister();
    MeasureDraft m_draft;
};

TEST_F(PlanMeasure, MakesMarkDimensionAndReadingLinked) {
    m_draft.name = " door width ";
    m_draft.component = "Body/Side";
    const auto set = plan();
    const auto mark = theOne<record::Mark>(set);
    const auto dimension = theOne<record::Dimension>(set);
    const auto reading = theOne<record::Reading>(set);
    EXPECT_EQ(dimension.name, "door width");
    EXPECT_EQ(dimension.component, "Body/Side");
    EXPECT_EQ(dimension.code, "D4");
    EXPECT_EQ(reading.of, any(dimension.id));
    EXPECT_EQ(reading.mark, mark.id);
    EXPECT_EQ(reading.frame->text, "g1");
    EXPECT_EQ(reading.basis, record::Basis::Scaled);
    EXPECT_EQ(reading.by, kAnna);
    EXPECT_EQ(reading.on, "2026-05-01");
    EXPECT_EQ(set->what, "measure D4");
}

TEST_F(PlanMeasure, AddsAReadingToTheDimensionChosen) {
    m_draft.dimension = record::DimensionId{"d1"};
    const auto set = plan();
    EXPECT_TRUE(made<record::Dimension>(set).empty());
    EXPECT_EQ(theOne<record::Reading>(set).of.text, "d1");
}

TEST_F(PlanMeasure, ANameThatIsKnownMeansThatDimension) {
    m_draft.name = "hoop width";
    const auto set = plan();
    EXPECT_TRUE(made<record::Dimension>(set).empty());
    EXPECT_EQ(theOne<record::Reading>(set).of.text, "d1");
}

TEST_F(PlanMeasure, TheSameNameInAnotherComponentIsAnotherDimension) {
    m_draft.name = "hoop width";
    m_draft.component = "Trailer";
    EXPECT_EQ(theOne<record::Dimension>(plan()).component, "Trailer");
}

TEST_F(PlanMeasure, ANameOfTwoDimensionsNeedsAChoice) {
    m_reg.dimensions.push_back(m_reg.dimensions[0]);
    m_reg.dimensions.back().id = {"d7"};
    m_reg.dimensions.back().code = "D7";
    m_reg.dimensions.back().component = "Trailer";
    m_draft.name = "hoop width";
    expectRefused(plan(), Code::DuplicateId, "component");
    m_draft.component = "Trailer";
    EXPECT_EQ(theOne<record::Reading>(plan()).of.text, "d7");
}

TEST_F(PlanMeasure, NeedsANameOrADimension) {
    m_draft.name = "   ";
    expectRefused(plan(), Code::MissingKey, "name");
}

TEST_F(PlanMeasure, RefusesANameOfAnotherQuantity) {
    m_draft.name = "tread angle";
    expectRefused(plan(), Code::DuplicateId, "name");
}

TEST_F(PlanMeasure, RefusesADimensionThatCannotBeMeasured) {
    m_draft.dimension = record::DimensionId{"d9"};
    expectRefused(plan(), Code::MissingTarget, "dimension");
    m_draft.dimension = record::DimensionId{"q1"};
    expectRefused(plan(), Code::MissingTarget, "dimension");
    m_draft.dimension = record::DimensionId{"d1"};
    m_reg.dimensions[0].setAside = "a duplicate";
    expectRefused(plan(), Code::WrongUse, "dimension");
}

TEST_F(PlanMeasure, RefusesAScaleThatCannotBeUsed) {
    m_draft.frame = {"g9"};
    expectRefused(plan(), Code::MissingTarget, "frame");
    m_draft.frame = {"g1"};
    m_draft.mark = segment(250, "f1");
    expectRefused(plan(), Code::WrongUse, "frame");
    m_draft.mark = segment(250);
    m_reg.frames[0].setAside = "oblique";
    expectRefused(plan(), Code::WrongUse, "frame");
}

TEST_F(PlanMeasure, RefusesAMarkWithoutThatSize) {
    m_draft.mark.points = {{5, 5}, {5, 5}};
    expectRefused(plan(), Code::BadValue, "mark/points");
    m_draft.mark = segment(250);
    m_draft.dimension = record::DimensionId{"d2"};
    expectRefused(plan(), Code::BadValue, "mark/points");
    m_draft.dimension.reset();
    m_draft.mark.uPx = -1;
    expectRefused(plan(), Code::BadValue, "mark/u_px");
    m_draft.mark.uPx.reset();
    m_draft.mark.covariance = {{1, 0}, {0, 1}};
    expectRefused(plan(), Code::BadValue, "mark/covariance");
}

TEST_F(PlanMeasure, RefusesAnOffPlaneTermBehindTheCamera) {
    record::OffPlane off;
    off.offset = 12;
    off.distance = 10;
    m_draft.offPlane = off;
    expectRefused(plan(), Code::BadValue, "off_plane/offset");
    off.distance = 240;
    m_draft.offPlane = off;
    EXPECT_EQ(theOne<record::Reading>(plan()).offPlane->distance, 240);
}

}  // namespace
}  // namespace planning

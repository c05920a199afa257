// What stands at the pointer while dragging is what the register says once the mark is taken.
#include "app/session/live_length.h"

#include "evidence-core/judgement/analyse.h"
#include "tests/app/session/planned_archive.h"

#include <chrono>
#include <cmath>

namespace planning {
namespace {

using namespace app::session;

record::KnownLength stated(const std::string& value) {
    record::KnownLength length;
    length.value = value;
    length.basis = record::Basis::Stated;
    length.source = record::SourceId{"s1"};
    return length;
}

class LiveLength : public testing::Test {
  protected:
    record::FrameId setScale(const MarkDraft& mark, const record::KnownLength& length,
                             std::optional<double> parallelWithin = {},
                             std::optional<record::FrameId> frame = {}) {
        ScaleDraft draft;
        draft.mark = mark;
        draft.length = length;
        draft.parallelWithin = parallelWithin;
        draft.frame = frame;
        m_archive.perform(planScale(m_archive.context(), draft));
        return m_archive.reg().frames.back().id;
    }
    record::FrameId setPrintedScale(double dpi, double drawnScale,
                                    std::optional<double> uRelative = {}) {
        PrintedScaleDraft draft;
        draft.file = {"f1"};
        draft.print.dpi = dpi;
        draft.print.drawnScale = drawnScale;
        draft.print.uRelative = uRelative;
        m_archive.perform(planPrintedScale(m_archive.context(), draft));
        return m_archive.reg().frames.back().id;
    }
    [[nodiscard]] judgement::Analysis analysis() const {
        const auto found = judgement::analyse(m_archive.reg());
        EXPECT_TRUE(found) << found.error().help;
        return *found;
    }
    /// Drags, then takes the mark, then compares with the register.
    void expectAgrees(const record::FrameId& frame, const MarkDraft& mark) {
        const auto scale = liveScale(m_archive.reg(), analysis(), frame);
        ASSERT_TRUE(scale);
        const auto live = liveLength(*scale, mark);
        ASSERT_TRUE(live);

        MeasureDraft draft;
        draft.mark = mark;
        draft.frame = frame;
        draft.name = "new " + std::to_string(m_archive.reg().dimensions.size());
        m_archive.perform(planMeasure(m_archive.context(), draft));
        const auto after = analysis();
        const auto taken = std::ranges::find(after.dimensions, m_archive.reg().dimensions.back().id,
                                             &judgement::DimensionResult::id);
        ASSERT_NE(taken, after.dimensions.end());
        ASSERT_TRUE(taken->value && taken->low95 && taken->high95);
        EXPECT_NEAR(live->valueInches, *taken->value, 1e-9 * *taken->value);
        const double half = (*taken->high95 - *taken->low95) / 2;
        EXPECT_GT(half, 0);
        EXPECT_NEAR((live->high95 - live->low95) / 2, half, 0.02 * half);
    }

    PlannedArchive m_archive;
};

TEST_F(LiveLength, AgreesThroughAKnownLengthOnAPhotograph) {
    const auto frame = setScale(segment(400), stated("56 1/2 in"));
    expectAgrees(frame, segment(250));
    expectAgrees(frame, segment(2500));
}

TEST_F(LiveLength, AgreesWhereTheKnownLengthIsCoarse) {
    // "9 ft" is ± 6 in, rectangular: the interval is far from 1.96 u.
    expectAgrees(setScale(segment(400), stated("9 ft")), segment(900));
}

TEST_F(LiveLength, AgreesThroughSeveralReferencesAndATiltedPlane) {
    const auto frame = setScale(segment(400), stated("56 1/2 in"), 12.0);
    setScale(segment(201), stated("28 in"), {}, frame);
    setScale(segment(85), stated("1 ft"), {}, frame);
    expectAgrees(frame, segment(250));
}

TEST_F(LiveLength, AgreesThroughADimensionOfTheRegister) {
    record::Reading figured;
    figured.of = {"d1"};
    figured.basis = record::Basis::Figured;
    figured.source = record::SourceId{"s1"};
    figured.value = std::string("3'-2 1/4\"");
    m_archive.perform(planReading(m_archive.context(), figured));
    record::KnownLength length;
    length.dimension = record::DimensionId{"d1"};
    expectAgrees(setScale(segment(300), length), segment(120));
}

TEST_F(LiveLength, AgreesOnADrawingWithItsDrawnScale) {
    expectAgrees(setPrintedScale(300, 24), segment(250, "f1"));
    expectAgrees(setPrintedScale(300, 24, 0.0), segment(250, "f1"));
}

TEST_F(LiveLength, AgreesWhereWorkmanshipCounts) {
    const auto before = m_archive.reg().archive;
    auto after = before;
    after.workmanship = 0.25;
    m_archive.perform(record::ChangeSet{"settings", {{before, after}}});
    expectAgrees(setScale(segment(400), stated("56 1/2 in")), segment(30));
}

TEST_F(LiveLength, AgreesForAMarkThatSaysNothingOfItsUncertainty) {
    const auto frame = setScale(segment(400), stated("56 1/2 in"));
    auto mark = segment(40);
    mark.uPx.reset();
    expectAgrees(frame, mark);
    mark.covariance = {{0.04, 0, 0, 0}, {0, 0.25, 0, 0}, {0, 0, 0.09, 0.01}, {0, 0, 0.01, 0.25}};
    expectAgrees(frame, mark);
}

TEST_F(LiveLength, IsShownInTheRegistersUnit) {
    const auto frame = setPrintedScale(100, 1, 0.0);
    const auto inches = liveScale(m_archive.reg(), analysis(), frame);
    ASSERT_TRUE(inches);
    const auto live = liveLength(*inches, segment(254, "f1"));
    ASSERT_TRUE(live);
    EXPECT_NEAR(live->valueInches, 2.54, 1e-12);
    EXPECT_NE(live->text.find("0'-2"), std::string::npos) << live->text;
    EXPECT_NE(live->text.find("±"), std::string::npos) << live->text;
    EXPECT_NEAR(live->low95 + live->high95, 2 * live->valueInches, 1e-12);
}

TEST_F(LiveLength, SaysNothingWhereThereIsNothingToSay) {
    const auto frame = setScale(segment(400), stated("56 1/2 in"));
    const auto scale = liveScale(m_archive.reg(), analysis(), frame);
    ASSERT_TRUE(scale);
    EXPECT_FALSE(liveLength(*scale, segment(0)));
    EXPECT_FALSE(liveLength(*scale, segment(10), record::DimensionQuantity::Angle));
    EXPECT_FALSE(liveLength(*scale, segment(std::nan(""))));
    EXPECT_FALSE(liveScale(m_archive.reg(), analysis(), {"g9"}));
    EXPECT_FALSE(liveScale(m_archive.reg(), {}, frame));
    const auto before = analysis();
    m_archive.perform(planSetAside(m_archive.context(), any(frame), "oblique"));
    EXPECT_FALSE(liveScale(m_archive.reg(), before, frame));
}

TEST_F(LiveLength, HasNoSizeWhileTheScaleRestsOnADimensionWithoutEvidence) {
    record::KnownLength length;
    length.dimension = record::DimensionId{"d3"};
    const auto frame = setScale(segment(300), length);
    EXPECT_FALSE(liveScale(m_archive.reg(), analysis(), frame));
    EXPECT_EQ(scalesOf(m_archive.reg(), {"f2"}, 1), std::vector{frame});
}

TEST_F(LiveLength, ScalesOfAPageAreItsOwnAndUsable) {
    const auto photograph = setScale(segment(400), stated("56 1/2 in"));
    const auto drawing = setPrintedScale(300, 24);
    EXPECT_EQ(scalesOf(m_archive.reg(), {"f2"}, 1), std::vector{photograph});
    EXPECT_EQ(scalesOf(m_archive.reg(), {"f1"}, 1), std::vector{drawing});
    EXPECT_TRUE(scalesOf(m_archive.reg(), {"f1"}, 2).empty());
    m_archive.perform(planSetAside(m_archive.context(), {"s1"}, "a copy"));
    EXPECT_TRUE(scalesOf(m_archive.reg(), {"f1"}, 1).empty());
    m_archive.perform(planSetAside(m_archive.context(), any(photograph), "oblique"));
    EXPECT_TRUE(scalesOf(m_archive.reg(), {"f2"}, 1).empty());
}

// Cheap enough for every move of the mouse: < 1 ms, here the mean of many.
TEST_F(LiveLength, KeepsUpWithTheMouse) {
    const auto frame = setScale(segment(400), stated("56 1/2 in"), 12.0);
    for (int i = 1; i < 8; ++i)
        setScale(segment(100 * i), stated(std::to_string(14 * i)), {}, frame);
    const auto scale = liveScale(m_archive.reg(), analysis(), frame);
    ASSERT_TRUE(scale);
    constexpr int kMoves = 200;
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 1; i <= kMoves; ++i) ASSERT_TRUE(liveLength(*scale, segment(i)));
    const std::chrono::duration<double, std::milli> spent =
        std::chrono::steady_clock::now() - begin;
    RecordProperty("microseconds_per_move", std::to_string(1000 * spent.count() / kMoves));
    EXPECT_LT(spent.count() / kMoves, 1.0);
}

}  // namespace
}  // namespace planning

// Plans on a real archive: what is performed and taken back leaves the register as it was.
#include "tests/app/session/planned_archive.h"

#include <rapidcheck/gtest.h>

#include <functional>

namespace planning {
namespace {

using namespace app::session;

/// Drafts that hold together whatever numbers they are given.
struct Drafts {
    static ScaleDraft scale(double pixels, double inches) {
        ScaleDraft draft;
        draft.mark = segment(pixels);
        draft.length.value = record::Number{inches, ""};
        draft.length.unit = "in";
        draft.length.u = inches / 100;
        return draft;
    }
    static MeasureDraft measure(const record::FrameId& frame, double pixels,
                                const std::string& name) {
        MeasureDraft draft;
        draft.mark = segment(pixels);
        draft.mark.covariance = {
            {0.25, 0, 0, 0}, {0, 0.25, 0, 0}, {0, 0, 0.25, 0}, {0, 0, 0, 0.25}};
        draft.frame = frame;
        draft.name = name;
        return draft;
    }
    static PrintedScaleDraft printed(double dpi, double drawnScale) {
        PrintedScaleDraft draft;
        draft.file = {"f1"};
        draft.print.dpi = dpi;
        draft.print.drawnScale = drawnScale;
        return draft;
    }
    static GuessDraft guess(const record::AnyId& of, double low, double width) {
        GuessDraft draft;
        draft.of = of;
        draft.low = std::to_string(low);
        draft.high = std::to_string(low + width);
        draft.reason = "nothing shows it";
        draft.considered = "leaving it out";
        return draft;
    }
    static RulingDraft ruling(const record::AnyId& on, double value) {
        RulingDraft draft;
        draft.on = on;
        draft.value = std::to_string(value);
        draft.reason = "as near as we know";
        draft.evidence = record::EvidenceState{value, 0.1, record::Grade::TakenOff, "abc"};
        return draft;
    }
    static record::Reading figured(const record::AnyId& of, double value) {
        record::Reading reading;
        reading.of = of;
        reading.basis = record::Basis::Figured;
        reading.source = record::SourceId{"s1"};
        reading.value = std::to_string(value);
        return reading;
    }
    static DimensionDraft dimension(const std::string& name) {
        DimensionDraft draft;
        draft.name = name;
        draft.component = "Roof";
        draft.critical = true;
        return draft;
    }
};

using Plan = std::function<Result<record::ChangeSet>(const Context&)>;

class PlanRoundTrip : public testing::Test {
  protected:
    void expectNothingLeft(const Plan& plan) {
        const auto before = m_archive.reg();
        const auto done = m_archive.perform(plan(m_archive.context()));
        EXPECT_FALSE(m_archive.reg() == before);
        m_archive.takeBack(done);
        EXPECT_EQ(m_archive.reg(), before);
    }
    record::FrameId scaled() {
        m_archive.perform(planScale(m_archive.context(), Drafts::scale(400, 56.5)));
        return m_archive.reg().frames.back().id;
    }

    PlannedArchive m_archive;
};

TEST_F(PlanRoundTrip, Scale) {
    expectNothingLeft([](const Context& c) { return planScale(c, Drafts::scale(400, 56.5)); });
}

TEST_F(PlanRoundTrip, OneMoreReferenceOfAScale) {
    auto draft = Drafts::scale(200, 28);
    draft.frame = scaled();
    draft.parallelWithin = 2;
    expectNothingLeft([&](const Context& c) { return planScale(c, draft); });
}

TEST_F(PlanRoundTrip, PrintedScale) {
    expectNothingLeft(
        [](const Context& c) { return planPrintedScale(c, Drafts::printed(300, 24)); });
}

TEST_F(PlanRoundTrip, MeasureOfANewAndOfAKnownDimension) {
    const auto frame = scaled();
    expectNothingLeft([&](const Context& c) {
        return planMeasure(c, Drafts::measure(frame, 250, "door width"));
    });
    expectNothingLeft([&](const Context& c) {
        return planMeasure(c, Drafts::measure(frame, 250, "hoop width"));
    });
}

TEST_F(PlanRoundTrip, DimensionReadingGuessAndRuling) {
    expectNothingLeft(
        [](const Context& c) { return planDimension(c, Drafts::dimension("ridge")); });
    expectNothingLeft([](const Context& c) { return planReading(c, Drafts::figured({"d1"}, 38)); });
    expectNothingLeft([](const Context& c) { return planGuess(c, Drafts::guess({"d3"}, 3, 1)); });
    expectNothingLeft([](const Context& c) { return planRuling(c, Drafts::ruling({"d1"}, 38)); });
}

TEST_F(PlanRoundTrip, SettingAsideAndAcknowledging) {
    expectNothingLeft([](const Context& c) { return planSetAside(c, {"s2"}, "a copy"); });
    expectNothingLeft([](const Context& c) {
        return planAcknowledge(c, "undetermined", {{"d3"}}, "abc", "not needed");
    });
}

TEST_F(PlanRoundTrip, APersonWhoActsForTheFirstTimeIsMadeAndStays) {
    test::ScratchFolder folder;
    auto archive = Archive::create(folder / "a", "Test", {"Bert", [] { return kNow; }});
    ASSERT_TRUE(archive);
    ASSERT_TRUE((*archive)->perform({"prepare", {{std::nullopt, smallRegister().dimensions[0]}}}));
    const auto snapshot = (*archive)->snapshot();
    const auto plan =
        planRuling({snapshot->reg, (*archive)->actingPerson(), kNow}, Drafts::ruling({"d1"}, 38));
    ASSERT_TRUE(plan) << plan.error().place << ": " << plan.error().help;
    ASSERT_TRUE((*archive)->perform(*plan));
    EXPECT_EQ((*archive)->snapshot()->reg.people.size(), 1U);
}

/// Some plan with random numbers; refused ones change nothing.
Plan randomPlan(const record::Register& reg) {
    const double size = *rc::gen::inRange(1, 40000) / 7.0;
    const double other = *rc::gen::inRange(1, 4000) / 3.0;
    const auto& dimension =
        reg.dimensions[*rc::gen::inRange<std::size_t>(0, reg.dimensions.size())];
    const auto of = any(dimension.id);
    const auto name = *rc::gen::nonEmpty<std::string>();
    switch (*rc::gen::inRange(0, 8)) {
        case 0:
            return [=](const Context& c) { return planScale(c, Drafts::scale(size, other)); };
        case 1:
            return
                [=](const Context& c) { return planPrintedScale(c, Drafts::printed(size, other)); };
        case 2:
            return [=](const Context& c) {
                const record::FrameId frame =
                    c.reg.frames.empty() ? record::FrameId{"g0"} : c.reg.frames.front().id;
                return planMeasure(c, Drafts::measure(frame, size, name));
            };
        case 3:
            return [=](const Context& c) { return planDimension(c, Drafts::dimension(name)); };
        case 4:
            return [=](const Context& c) { return planReading(c, Drafts::figured(of, size)); };
        case 5:
            return [=](const Context& c) { return planGuess(c, Drafts::guess(of, size, other)); };
        case 6:
            return [=](const Context& c) { return planRuling(c, Drafts::ruling(of, size)); };
        default:
            return [=](const Context& c) { return planSetAside(c, of, name); };
    }
}

// The archive grows on: every other plan is kept.
TEST_F(PlanRoundTrip, PerformThenTakeBackIsIdentityForRandomDrafts) {
    int performed = 0;
    rc::check("perform then take back", [&] {
        const auto before = m_archive.reg();
        const auto context = m_archive.context();
        const auto plan = randomPlan(before)(context);
        if (!plan) {
            RC_ASSERT(!plan.error().place.empty());
            RC_ASSERT(!plan.error().help.empty());
            return;
        }
        ++performed;
        const auto done = m_archive.perform(plan);
        RC_ASSERT(!(m_archive.reg() == before));
        m_archive.takeBack(done);
        RC_ASSERT(m_archive.reg() == before);
        if (performed % 2 == 0) m_archive.perform(plan);
    });
    EXPECT_GT(performed, 20);
    EXPECT_FALSE(HasFailure());
}

}  // namespace
}  // namespace planning

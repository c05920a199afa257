#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

// Each kind of finding that the evidence raises, with a register that raises it and a neighbour
// that does not. What people did or left undone: finding_of_people_test.cpp.

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

/// A plain size, figured by the maker.
RegisterBuilder figured() {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.source("s1", "General arrangement").creator = "Corran works";
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("38 1/2"), 0.05);
    return b;
}

/// A photograph with a sourced length that scales one size.
RegisterBuilder pictured() {
    RegisterBuilder b;
    b.dimension("d1", "Window width");
    b.pictured("s1", "Broadside photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s2", "Plate catalogue", SourceKind::Standard);
    b.segment("m1", "s1", 360);
    b.segment("m2", "s1", 200);
    b.reference(b.uniform("g1", "s1"), "m1", 36, 0.05, "s2", Basis::Stated);
    b.scaled("r1", "d1", "g1", "m2").offPlane =
        record::OffPlane{.offset = 0, .u = 0.5, .distance = 300, .basis = Basis::Measured};
    return b;
}

bool raises(const RegisterBuilder& b, const std::string& kind, const std::string& on) {
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, kind, on);
    if (finding) {
        EXPECT_FALSE(finding->text.empty());
        EXPECT_FALSE(finding->settle.empty());
        EXPECT_FALSE(finding->digest.empty());
        EXPECT_TRUE(finding->text.ends_with('.') || finding->text.ends_with("”")) << finding->text;
    }
    return finding != nullptr;
}

TEST(FindingConflict, IsRaisedBeyondThreeAndAThirdSpreads) {
    auto b = figured();
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r2", "d1", Basis::Figured, "s2", std::string("38.74"), 0.05);
    EXPECT_TRUE(raises(b, "conflict", "d1"));  // 0.24 / 0.0707 = 3.39
    b.reg.readings.back().value = std::string("38.72");
    EXPECT_FALSE(raises(b, "conflict", "d1"));  // 0.22 / 0.0707 = 3.11
}

TEST(FindingLikelyMistake, NamesTheSlippedInch) {
    auto b = figured();
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r2", "d1", Basis::Figured, "s2", std::string("39 1/2"), 0.02);
    EXPECT_TRUE(raises(b, "likely-mistake", "d1"));
    b.reg.readings.back().value = std::string("41.83");
    EXPECT_FALSE(raises(b, "likely-mistake", "d1"));
    EXPECT_TRUE(raises(b, "conflict", "d1"));
}

TEST(FindingEcho, IsANoteUnlessTheCopyDiffers) {
    auto b = figured();
    b.source("s2", "Tracing", SourceKind::Drawing, Authority::Later)
        .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Tracing});
    b.reading("r2", "d1", Basis::Figured, "s2", std::string("38 1/2"), 0.05);
    EXPECT_TRUE(raises(b, "echo", "d1"));
    EXPECT_FALSE(raises(b, "echoes-disagree", "d1"));
    b.reg.readings.back().value = std::string("83 1/2");
    EXPECT_TRUE(raises(b, "echoes-disagree", "d1"));
    EXPECT_FALSE(raises(b, "conflict", "d1"));
    const auto analysis = b.analyse();
    const auto* mistake = findingOn(analysis, "likely-mistake", "r2");
    ASSERT_TRUE(mistake);
    EXPECT_NE(mistake->text.find("38 1/2"), std::string::npos) << mistake->text;
}

TEST(FindingGuess, RestsOnAGuessAndIsGraverWhereItIsCritical) {
    RegisterBuilder b;
    auto& dimension = b.dimension("d1", "Brake hanger thickness");
    b.guess("r1", "d1", 3.5, 0.5);
    EXPECT_TRUE(raises(b, "rests-on-guess", "d1"));
    {
        const auto analysis = b.analyse();
        EXPECT_EQ(findingOn(analysis, "rests-on-guess", "d1")->severity,
                  judgement::Severity::Medium);
    }
    dimension.critical = true;
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "rests-on-guess", "d1");
    ASSERT_TRUE(finding);
    EXPECT_EQ(finding->severity, judgement::Severity::High);
    EXPECT_NE(finding->text.find("licensed practice"), std::string::npos);
    EXPECT_EQ(finding->on, std::vector{record::AnyId{"d1"}});
    EXPECT_FALSE(raises(figured(), "rests-on-guess", "d1"));
}

TEST(FindingGuess, PullsWhereItCarriesMoreThanAQuarter) {
    auto b = figured();
    b.reg.readings.back().u = 2.0;
    b.guess("r2", "d1", 39.0, 2.5);
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "pulled-by-guess", "d1");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->text.find("Without any guess"), std::string::npos) << finding->text;
    EXPECT_NEAR(*sizeIn(analysis, "d1").withoutGuess->value, 38.5, 1e-9);
    EXPECT_FALSE(raises(figured(), "pulled-by-guess", "d1"));
}

TEST(FindingThin, OneReadingAndOneOriginAreNoted) {
    EXPECT_TRUE(raises(figured(), "single-reading", "d1"));
    EXPECT_TRUE(raises(figured(), "single-origin", "d1"));
    auto b = figured();
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r2", "d1", Basis::Figured, "s2", std::string("38 1/2"), 0.05);
    EXPECT_FALSE(raises(b, "single-reading", "d1"));
    EXPECT_FALSE(raises(b, "single-origin", "d1"));
}

TEST(FindingUndetermined, NamesWhatNothingFixes) {
    auto b = figured();
    EXPECT_FALSE(raises(b, "undetermined", "d1"));
    b.dimension("d2", "Post width");
    EXPECT_TRUE(raises(b, "undetermined", "d2"));
}

TEST(FindingScale, IsUnscaledWithoutAKnownLength) {
    auto b = pictured();
    EXPECT_FALSE(raises(b, "unscaled", "g1"));
    b.reg.frames.back().references.clear();
    EXPECT_TRUE(raises(b, "unscaled", "g1"));
    EXPECT_TRUE(raises(b, "undetermined", "d1"));
}

TEST(FindingScale, IsUnsupportedWhereTheLengthHasNoSource) {
    auto b = pictured();
    EXPECT_FALSE(raises(b, "unsupported-reference", "g1"));
    auto& length = b.reg.frames.back().references.front().length;
    length.source.reset();
    length.basis.reset();
    EXPECT_TRUE(raises(b, "unsupported-reference", "g1"));
    EXPECT_TRUE(raises(b, "rests-on-guess", "d1"));
}

TEST(FindingScale, IsStretchedBeyondThreeTimesItsKnownLength) {
    auto b = pictured();
    EXPECT_FALSE(raises(b, "beyond-reference", "d1"));
    b.segment("m3", "s1", 1100);
    b.reg.readings.back().mark = record::MarkId{"m3"};
    EXPECT_TRUE(raises(b, "beyond-reference", "d1"));
}

TEST(FindingPlane, AsksHowFarAPhotographedThingLies) {
    auto b = pictured();
    EXPECT_FALSE(raises(b, "off-plane", "d1"));
    b.reg.readings.back().offPlane.reset();
    EXPECT_TRUE(raises(b, "off-plane", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "B");
    auto tilted = pictured();
    tilted.reg.frames.back().parallelWithin.reset();
    EXPECT_TRUE(raises(tilted, "off-plane", "d1"));
    EXPECT_EQ(letterOf(tilted.analyse(), "d1"), "B");
}

TEST(FindingPlane, AsksNothingOfADrawing) {
    auto b = pictured();
    b.reg.sources.front().kind = SourceKind::Drawing;
    b.reg.readings.back().offPlane.reset();
    b.reg.frames.back().parallelWithin.reset();
    EXPECT_FALSE(raises(b, "off-plane", "d1"));
}

TEST(FindingLimits, ExcludeTheValueOrEachOther) {
    auto b = figured();
    b.limit("r2", "d1", std::nullopt, 39.0);
    EXPECT_FALSE(raises(b, "limits-exclude", "d1"));
    b.reg.readings.back().high = b.number(38.0);
    EXPECT_TRUE(raises(b, "limits-exclude", "d1"));
    RegisterBuilder empty;
    empty.dimension("d1", "Tank depth");
    empty.limit("r1", "d1", 20.0, std::nullopt);
    empty.limit("r2", "d1", std::nullopt, 19.0);
    EXPECT_TRUE(raises(empty, "limits-exclude", "d1"));
}

RegisterBuilder closure(double total) {
    auto b = figured();
    b.dimension("d2", "First bay");
    b.dimension("d3", "Second bay");
    b.reading("r2", "d2", Basis::Figured, "s1", b.number(19.0), 0.05);
    b.reading("r3", "d3", Basis::Figured, "s1", b.number(total - 19.0), 0.05);
    b.relation("l1", "D1 = D2 + D3", Basis::Geometry).use = record::Use::Check;
    return b;
}

TEST(FindingLoop, IsOpenWhereACheckDoesNotClose) {
    EXPECT_FALSE(raises(closure(38.6), "loop-open", "l1"));
    EXPECT_TRUE(raises(closure(39.5), "loop-open", "l1"));
}

TEST(FindingLoop, NamesSizesNotCodes) {
    const auto analysis = closure(39.5).analyse();
    const auto* finding = findingOn(analysis, "loop-open", "d1");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->text.find("Sill length = First bay + Second bay"), std::string::npos)
        << finding->text;
}

TEST(FindingOutside, IsRaisedWhereACommonErrorPullsBeyondAllReadings) {
    RegisterBuilder b;
    b.dimension("d1", "Axle centre");
    b.source("s1", "Sheet 1").creator = "A";
    b.source("s2", "Sheet 2").creator = "B";
    b.reading("r1", "d1", Basis::Figured, "s1", b.number(10.0), 0.10);
    b.reading("r2", "d1", Basis::Figured, "s2", b.number(10.3), 0.30);
    EXPECT_FALSE(raises(b, "outside-readings", "d1"));
    b.reg.sharedErrors.push_back(
        {.id = {"e1"},
         .label = "long rule",
         .kind = record::SharedErrorKind::Absolute,
         .u = 1.0,
         .basis = Basis::Measured,
         .on = {{.record = {"r1"}, .coefficient = 1}, {.record = {"r2"}, .coefficient = 2}}});
    EXPECT_TRUE(raises(b, "outside-readings", "d1"));
}

TEST(FindingState, TellsEvidenceOfAnotherState) {
    auto b = figured();
    b.reg.states = {{.id = {"t1"}, .label = "as built", .from = "1911", .to = "1912"},
                    {.id = {"t2"}, .label = "altered", .from = "1913", .to = "1919"}};
    b.reg.dimensions.back().state = record::StateId{"t1"};
    b.reg.sources.back().states = {{"t1"}};
    EXPECT_FALSE(raises(b, "other-state", "d1"));
    b.reg.sources.back().states = {{"t2"}};
    EXPECT_TRUE(raises(b, "other-state", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "C");
    b.reg.readings.back().states = {{"t1"}};
    EXPECT_FALSE(raises(b, "other-state", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "F");
}

TEST(FindingState, TellsAReplacedIssue) {
    auto b = figured();
    b.source("s2", "General arrangement, issue B").replaces = record::SourceId{"s1"};
    EXPECT_TRUE(raises(b, "other-state", "d1"));
    EXPECT_FALSE(raises(figured(), "other-state", "d1"));
}

TEST(FindingState, TellsASourceLaterThanTheStateItShows) {
    auto b = figured();
    b.reg.states = {{.id = {"t1"}, .label = "as built", .from = "1911", .to = "1912"}};
    b.reg.sources.back().states = {{"t1"}};
    b.reg.sources.back().date = "1911-05";
    EXPECT_FALSE(raises(b, "anachronism", "s1"));
    b.reg.sources.back().date = "1925";
    EXPECT_TRUE(raises(b, "anachronism", "s1"));
    b.reg.sources.back().date = "1925~";
    EXPECT_FALSE(raises(b, "anachronism", "s1"));
}

TEST(FindingState, TellsAProposal) {
    auto b = figured();
    EXPECT_FALSE(raises(b, "proposal-evidence", "d1"));
    b.reg.sources.back().standing = record::Standing::Proposal;
    EXPECT_TRUE(raises(b, "proposal-evidence", "d1"));
}

TEST(FindingPart, TellsAFeatureThatIsNotShownOriginal) {
    RegisterBuilder b;
    b.dimension("d1", "Hub bore");
    b.source("s1", "Hub", SourceKind::Part);
    auto& reading = b.reading("r1", "d1", Basis::Gauged, "s1", b.number(2.75), 0.002);
    EXPECT_TRUE(raises(b, "altered-part", "d1"));
    reading.feature = record::Feature::Original;
    EXPECT_FALSE(raises(b, "altered-part", "d1"));
    reading.feature = record::Feature::Altered;
    EXPECT_TRUE(raises(b, "altered-part", "d1"));
}

TEST(FindingPart, TellsTwoCorrectionsForOneThing) {
    auto b = figured();
    auto& corrections = b.reg.readings.back().corrections;
    corrections.push_back({.label = "pattern contraction", .factor = 1.0104, .u = 0.001});
    EXPECT_FALSE(raises(b, "double-correction", "d1"));
    corrections.push_back({.label = "casting contraction", .factor = 1.0104, .u = 0.001});
    EXPECT_TRUE(raises(b, "double-correction", "d1"));
}

TEST(FindingDefault, TellsADoubtThatNobodyGave) {
    auto b = figured();
    EXPECT_FALSE(raises(b, "default-correction", "d1"));
    b.reg.readings.back().u.reset();
    EXPECT_TRUE(raises(b, "default-correction", "d1"));
    auto table = figured();
    table.reg.readings.back().corrections.push_back({.label = "timber movement",
                                                     .add = 0.1,
                                                     .u = 0.05,
                                                     .basis = Basis::Stated,
                                                     .source = record::SourceId{"s1"},
                                                     .tableRow = "oak, tangential"});
    EXPECT_TRUE(raises(table, "default-correction", "d1"));
}

TEST(FindingTolerance, IsFinerThanTwiceTheEvidence) {
    auto b = figured();  // half of the 95 % interval: 0.098
    b.reg.dimensions.back().tolerance = 0.25;
    EXPECT_FALSE(raises(b, "tolerance-finer", "d1"));
    b.reg.dimensions.back().tolerance = 0.125;
    EXPECT_TRUE(raises(b, "tolerance-finer", "d1"));
}

TEST(FindingChain, IsLongBeyondFiveSteps) {
    auto b = figured();
    for (int i = 2; i <= 8; ++i) {
        b.dimension("d" + std::to_string(i), "Link " + std::to_string(i));
        b.relation("l" + std::to_string(i),
                   "D" + std::to_string(i) + " = D" + std::to_string(i - 1) + " + 1",
                   Basis::Measured, 0.01);
    }
    EXPECT_FALSE(raises(b, "long-chain", "d3"));
    EXPECT_TRUE(raises(b, "long-chain", "d8"));
}

}  // namespace

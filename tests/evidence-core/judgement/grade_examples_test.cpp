#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

// The twelve worked examples of docs/grading.md, with its own numbers.

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

std::string text(const char* words) {
    return words;
}

TEST(GradeExample, Number1HubBoreInHand) {
    RegisterBuilder b;
    b.dimension("d1", "Hub bore");
    b.source("s1", "Original hub", SourceKind::Part);
    b.source("s2", "Sheet 3");
    b.reading("r1", "d1", Basis::Gauged, "s1", b.number(2.749), 0.002).feature =
        record::Feature::Original;
    b.reading("r2", "d1", Basis::Figured, "s2", text("2 3/4"), 0.008);
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "H");
    EXPECT_NEAR(*sizeIn(analysis, "d1").value, 2.749, 0.0005);
    EXPECT_NEAR(*sizeIn(analysis, "d1").u, 0.002, 0.0002);
    EXPECT_FALSE(findingOn(analysis, "conflict", "d1"));
}

TEST(GradeExample, Number2CopiesAreNoWitnesses) {
    RegisterBuilder b;
    b.dimension("d1", "Wheelbase");
    b.source("s1", "Maker's sheet");
    for (const char* id : {"s2", "s3"}) {
        b.source(id, std::string("Magazine ") + id, SourceKind::Text, Authority::Later)
            .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Copy});
    }
    b.reading("r1", "d1", Basis::Figured, "s1", text("112 in"), 0.25);
    b.reading("r2", "d1", Basis::Stated, "s2", text("112 in"), 0.25);
    b.reading("r3", "d1", Basis::Stated, "s3", text("112 in"), 0.25);
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "F");
    EXPECT_TRUE(findingOn(analysis, "single-origin", "d1"));
    EXPECT_TRUE(findingOn(analysis, "echo", "d1"));
    EXPECT_EQ(sizeIn(analysis, "d1").origins, 1);
    EXPECT_NEAR(*sizeIn(analysis, "d1").u, 0.25, 1e-9);
}

TEST(GradeExample, Number3CabHeightTakenOff) {
    RegisterBuilder b;
    b.dimension("d1", "Cab height");
    b.source("s1", "Elevation, 1:16");
    auto& reading = b.reading("r1", "d1", Basis::Scaled, "s1", b.number(1.715 * 16), 0.006 * 16);
    reading.corrections.push_back(
        {.label = "sheet factor", .factor = 1.006, .u = 0.003, .basis = Basis::Measured});
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "T");
    EXPECT_NEAR(*sizeIn(analysis, "d1").value, 27.60, 0.01);
    EXPECT_NEAR(*sizeIn(analysis, "d1").u, 0.127, 0.001);
}

RegisterBuilder axleInAPicture(Basis depth) {
    RegisterBuilder b;
    b.dimension("d1", "Axle height").tolerance = 1.0;
    b.pictured("s1", "Broadside photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s2", "Statute gauge", SourceKind::Standard);
    b.segment("m1", "s1", 301, 2 / 1.4142136);
    b.segment("m2", "s1", 412, 3 / 1.4142136);
    auto& scale = b.uniform("g1", "s1");
    b.reference(scale, "m1", 56.5, 0.40, "s2", Basis::Stated);
    auto& reading = b.scaled("r1", "d1", "g1", "m2");
    reading.offPlane = record::OffPlane{.offset = -24,
                                        .u = 0.06 / 1.7320508 * 240,
                                        .distance = 240,
                                        .basis = depth,
                                        .reason = "between the bumper and the door"};
    return b;
}

TEST(GradeExample, Number4DepthBoundedByVisibleLimitsIsBoxedIn) {
    const auto analysis = axleInAPicture(Basis::Limit).analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "B");
    EXPECT_NEAR(*sizeIn(analysis, "d1").value, 85.1, 0.1);
    EXPECT_TRUE(findingOn(analysis, "tolerance-finer", "d1"));
    EXPECT_FALSE(findingOn(analysis, "off-plane", "d1"));
}

TEST(GradeExample, Number4ABareGuessOfDepthGivesOForTheSameNumber) {
    const auto bounded = axleInAPicture(Basis::Limit).analyse();
    const auto guessed = axleInAPicture(Basis::Guessed).analyse();
    EXPECT_EQ(letterOf(guessed, "d1"), "O");
    EXPECT_NEAR(*sizeIn(guessed, "d1").value, *sizeIn(bounded, "d1").value, 1e-9);
}

TEST(GradeExample, Number5AMemberOfALostSeriesIsBoxedIn) {
    RegisterBuilder b;
    b.dimension("d3", "Frame 3 breadth");
    b.dimension("d10", "Frame 10 breadth");
    b.dimension("d6", "Frame 6 breadth");
    b.source("s1", "Lines");
    b.reading("r1", "d3", Basis::Figured, "s1", b.number(26.0), 0.06);
    b.reading("r2", "d10", Basis::Figured, "s1", b.number(31.577), 0.06);
    b.relation("l1", "D6 = (4*D3 + 3*D10)/7", Basis::Interpolated, 0.25);
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d6"), "B");
    EXPECT_NEAR(*sizeIn(analysis, "d6").value, 28.39, 0.005);
    EXPECT_NEAR(*sizeIn(analysis, "d6").u, 0.25, 0.01);
}

TEST(GradeExample, Number6PresenceAndSizeAreGradedApart) {
    RegisterBuilder b;
    b.dimension("d1", "Stay wire thickness");
    b.particular("q1", "Stay wire").kind = record::ParticularKind::Presence;
    b.source("s1", "Sister machine", SourceKind::Part, Authority::Later);
    b.source("s2", "Works photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s3", "Fitter's letter", SourceKind::Text, Authority::Eyewitness);
    b.reading("r1", "d1", Basis::Analogous, "s1", b.number(0.125));
    b.reading("r2", "q1", Basis::Stated, "s2", text("yes"));
    b.reading("r3", "q1", Basis::Stated, "s3", text("Yes"));
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "C");
    // Picture and letter are two witnesses of different kinds; one alone would be F.
    EXPECT_EQ(letterOf(analysis, "q1"), "H");
}

TEST(GradeExample, Number7AnInventedPlaceIsOurCall) {
    RegisterBuilder b;
    b.dimension("d1", "Step tread position");
    b.particular("q1", "Step tread").kind = record::ParticularKind::Presence;
    b.source("s1", "Blurred photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.guess("r1", "d1", 40, 6);
    b.reading("r2", "q1", Basis::Stated, "s1", text("yes"));
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "O");
    EXPECT_TRUE(findingOn(analysis, "pulled-by-guess", "d1"));
    EXPECT_TRUE(findingOn(analysis, "rests-on-guess", "d1"));
    EXPECT_EQ(letterOf(analysis, "q1"), "F");
}

RegisterBuilder sparAndRib() {
    RegisterBuilder b;
    b.dimension("d1", "Spar length");
    b.dimension("d2", "Rib length");
    b.pictured("s1", "Wing drawing", SourceKind::Drawing, Authority::Maker);
    b.segment("m1", "s1", 400);
    b.segment("m2", "s1", 1200);
    b.referenceTo(b.uniform("g1", "s1"), "m1", "d2");
    b.scaled("r1", "d1", "g1", "m2");
    b.relation("l1", "D2 = D1/3", Basis::Measured, 0.05);
    return b;
}

TEST(GradeExample, Number8ALoopIsBlank) {
    const auto analysis = sparAndRib().analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "-");
    EXPECT_EQ(letterOf(analysis, "d2"), "-");
    EXPECT_TRUE(findingOn(analysis, "circular", "d1"));
    EXPECT_TRUE(findingOn(analysis, "circular", "d2"));
}

TEST(GradeExample, Number8ASurvivingRibCapCutsTheLoop) {
    auto b = sparAndRib();
    b.source("s2", "Rib cap", SourceKind::Part);
    b.reading("r2", "d2", Basis::Gauged, "s2", b.number(50.0), 0.01).feature =
        record::Feature::Original;
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d2"), "H");
    EXPECT_EQ(letterOf(analysis, "d1"), "T");
    EXPECT_FALSE(findingOn(analysis, "circular", "d1"));
}

RegisterBuilder disputedRail() {
    RegisterBuilder b;
    b.dimension("d1", "Rail height");
    b.source("s1", "Works sheet").creator = "Corran works";
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r1", "d1", Basis::Figured, "s1", text("38.5"), 0.15);
    b.reading("r2", "d1", Basis::Figured, "s2", text("39.5"), 0.10);
    return b;
}

TEST(GradeExample, Number9ADisputeCapsAtTakenOff) {
    const auto analysis = disputedRail().analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "T");
    const auto* conflict = findingOn(analysis, "conflict", "d1");
    ASSERT_TRUE(conflict);
    EXPECT_EQ(conflict->on.size(), 3U);
    EXPECT_NEAR(conflict->numbers.at(0).second, 1 / 0.18028, 0.01);
    EXPECT_NE(conflict->text.find("Works sheet (S1)"), std::string::npos) << conflict->text;
}

TEST(GradeExample, Number9AnExplainedDifferenceMakesTwoWitnesses) {
    auto b = disputedRail();
    b.reg.readings.front().corrections.push_back({.label = "cap strip: inside size",
                                                  .add = 1.0,
                                                  .u = 0.0,
                                                  .reason = "the section shows the strip",
                                                  .basis = Basis::Figured,
                                                  .source = record::SourceId{"s1"}});
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "H");
    EXPECT_FALSE(findingOn(analysis, "conflict", "d1"));
}

TEST(GradeExample, Number10OurOwnGuessThatCameBackAddsNothing) {
    RegisterBuilder b;
    b.dimension("d1", "Seat depth");
    b.source("s0", "Our notes", SourceKind::Text, Authority::Modern);
    b.source("s1", "Hobby plan of 1998", SourceKind::Drawing, Authority::Modern)
        .descends.push_back({.from = {"s0"}, .as = record::DescentKind::ThisArchive});
    b.guess("r1", "d1", 14, 1);
    b.reading("r2", "d1", Basis::Figured, "s1", text("14"), 0.1);
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "O");
    EXPECT_TRUE(findingOn(analysis, "rests-on-guess", "d1"));
}

TEST(GradeExample, Number11ADepartureLeavesTheGradeOfTheOriginal) {
    RegisterBuilder b;
    b.dimension("d1", "Door width");
    b.source("s1", "Elevation");
    b.reading("r1", "d1", Basis::Scaled, "s1", b.number(18.25), 0.1);
    record::Departure wider;
    wider.id = {"x1"};
    wider.on = {"d1"};
    wider.to = text("20");
    wider.why = record::DepartureWhy::Access;
    wider.reason = "rescuers must get in";
    wider.approvals.push_back({.by = {"p1"}, .as = record::ApprovalSide::History});
    b.reg.departures.push_back(wider);
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d1"), "T");
    EXPECT_TRUE(findingOn(analysis, "departure", "d1"));
    EXPECT_FALSE(findingOn(analysis, "departure-unapproved", "d1"));
}

RegisterBuilder totalWeight() {
    RegisterBuilder b;
    for (const auto& [id, name] : {std::pair{"d1", "Empty weight"}, std::pair{"d2", "Body weight"},
                                   std::pair{"d3", "Engine bed weight"}})
        b.dimension(id, name).quantity = record::DimensionQuantity::Mass;
    b.source("s1", "Log", SourceKind::Text);
    b.source("s2", "Works list", SourceKind::Text);
    b.reading("r1", "d1", Basis::Stated, "s1", b.number(605), 3);
    b.reading("r2", "d2", Basis::Stated, "s2", b.number(471), 10);
    return b;
}

TEST(GradeExample, Number12ACheckedTotalChangesNoPart) {
    auto b = totalWeight();
    b.reading("r3", "d3", Basis::Guessed, "", b.number(100), 21.8).reason = "like its sister";
    const auto before = b.analyse();
    b.relation("l1", "D1 = D2 + D3", Basis::Geometry).use = record::Use::Check;
    const auto after = b.analyse();
    for (const char* id : {"d1", "d2", "d3"}) {
        EXPECT_DOUBLE_EQ(*sizeIn(before, id).value, *sizeIn(after, id).value);
        EXPECT_DOUBLE_EQ(*sizeIn(before, id).u, *sizeIn(after, id).u);
    }
    EXPECT_FALSE(findingOn(after, "loop-open", "d1"));
    ASSERT_EQ(after.relations.size(), 1U);
    EXPECT_NEAR(*after.relations[0].misclosure, 34, 1e-6);
}

TEST(GradeExample, Number12AnInferredRemainderIsBoxedIn) {
    auto b = totalWeight();
    b.relation("l1", "D1 = D2 + D3", Basis::Geometry).use = record::Infer{{"d3"}};
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "d3"), "B");
    EXPECT_NEAR(*sizeIn(analysis, "d3").value, 134, 1e-6);
}

}  // namespace

#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

/// The rules of domain.md and of the grades, each on the smallest register that shows it.
namespace {

using namespace evidence;
using network::Footing;
using network::ReadingUse;
using record::Authority;
using record::Basis;
using record::FrameModel;
using record::Grade;
using record::SourceKind;
using testsupport::NetSketch;

network::Solution solved(const NetSketch& b) {
    auto s = network::solve(b.reg);
    if (!s) {
        ADD_FAILURE() << s.error().place << ": " << s.error().help;
        return {};
    }
    return *std::move(s);
}

std::vector<std::string> mustHave(const network::Solution& s, std::size_t d) {
    std::vector<std::string> out;
    for (const std::size_t leaf : s.dimensions[d].mustHave) out.push_back(s.leaves[leaf].id);
    std::sort(out.begin(), out.end());
    return out;
}

TEST(Echo, ACopyIsCountedOnce) {
    NetSketch b;
    const auto d = b.dimension();
    const auto original = b.source(SourceKind::Drawing);
    const auto tracing = b.source(SourceKind::Drawing, Authority::Later);
    b.descends(tracing, original, record::DescentKind::Tracing);
    b.reading(d, 47.5, 0.1, tracing, Basis::Figured);
    b.reading(d, 74.5, 0.2, original, Basis::Figured);
    const auto s = solved(b);
    // The leader is nearest the root, though the tracing claims the smaller u.
    EXPECT_EQ(s.readings[0].use, ReadingUse::Echo);
    EXPECT_EQ(s.readings[0].echoOf->text, "r2");
    EXPECT_NEAR(*s.readings[0].echoDifference, -27, 1e-12);
    EXPECT_NEAR(*s.readings[0].uEchoDifference, std::hypot(0.1, 0.2), 1e-12);
    EXPECT_DOUBLE_EQ(*s.dimensions[0].value, 74.5);
    EXPECT_DOUBLE_EQ(*s.dimensions[0].u, 0.2);
    EXPECT_EQ(s.dimensions[0].origins.size(), 1U);
    EXPECT_TRUE(s.conflicts.empty());
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::Figured);
}

TEST(Echo, ReadingsOfIssuesThatReplaceEachOtherShareAnOrigin) {
    NetSketch b;
    const auto d = b.dimension();
    const auto issueB = b.source(SourceKind::Drawing), issueD = b.source(SourceKind::Drawing);
    b.reg.sources[1].replaces = record::SourceId{issueB};
    b.reading(d, 10, 0.1, issueB, Basis::Figured);
    b.reading(d, 10.1, 0.1, issueD, Basis::Figured);
    EXPECT_EQ(solved(b).dimensions[0].origins.size(), 1U);
}

TEST(Echo, AReadingWithoutASourceEchoesNothing) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 10, 0.1);
    b.reading(d, 10.1, 0.1);
    const auto s = solved(b);
    EXPECT_NEAR(*s.dimensions[0].value, 10.05, 1e-12);
    EXPECT_TRUE(s.dimensions[0].origins.empty());
}

struct Photograph {
    NetSketch b;
    std::string photo;

    explicit Photograph(std::optional<Basis> basis, double u = 0.4) {
        photo = b.source(SourceKind::Photograph, Authority::Eyewitness);
        const auto standard = b.source(SourceKind::Standard);
        auto& f = b.frame(photo);
        f.parallelWithin = 0;
        const auto rail = b.segment(photo, 301, 2 / std::sqrt(2.0));
        f.references = {NetSketch::reference(rail, 56.5, u, basis ? standard : "", basis)};
    }
    record::Reading& scaled(const std::string& of, double px) {
        auto& r = b.scaled(of, "g1", b.segment(photo, px, 3 / std::sqrt(2.0)));
        r.offPlane = record::OffPlane{};
        r.offPlane->distance = 480;
        r.offPlane->basis = Basis::Measured;
        return r;
    }
};

TEST(Class, AScaledSizeIsTakenOffThroughAKnownReference) {
    Photograph p(Basis::Stated);
    p.scaled(p.b.dimension(), 412);
    const auto s = solved(p.b);
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::TakenOff);
    EXPECT_FALSE(s.dimensions[0].restsOnGuess);
    EXPECT_EQ(mustHave(s, 0), (std::vector<std::string>{"g1/0", "r1", "r1/off_plane"}));
    EXPECT_EQ(s.dimensions[0].steps, 3);
    EXPECT_NEAR(*s.dimensions[0].value, 412 * 56.5 / 301, 1e-9);
}

TEST(Class, WithoutAWordOnThePlaneAPhotographGivesBAtBest) {
    Photograph p(Basis::Stated);
    p.scaled(p.b.dimension(), 412).offPlane.reset();
    EXPECT_EQ(solved(p.b).dimensions[0].ceiling, Grade::BoxedIn);
}

TEST(Class, AnUnsourcedReferenceMakesEverythingRestOnAGuess) {
    // A tiny claimed spread does not help: what counts is what is left without it.
    Photograph p(std::nullopt, 0.0001);
    p.scaled(p.b.dimension(), 412);
    const auto s = solved(p.b);
    EXPECT_TRUE(s.dimensions[0].restsOnGuess);
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::OurCall);
    EXPECT_FALSE(s.dimensions[0].valueWithoutGuess);
    // Floor: 3 % of 56.5 in as a half-width.
    EXPECT_NEAR(*s.frames[0].references[0].uLength, 0.03 * 56.5 / std::sqrt(3.0), 1e-12);
    EXPECT_TRUE(s.frames[0].references[0].floored);
}

// grading.md, example 4: axle behind the rails, depth ratio 1.10 from limits 1.04 to 1.16.
TEST(Class, ADepthBetweenLimitsIsBoxedInAndABareGuessIsOurCall) {
    for (const auto& [basis, expected] : {std::pair{std::optional(Basis::Limit), Grade::BoxedIn},
                                          {std::optional<Basis>(), Grade::OurCall}}) {
        Photograph p(Basis::Stated);
        auto& r = p.scaled(p.b.dimension(), 412);
        // Factor (D − q)/D = 1.10 with D 480: q = −48; ±0.06 is ±28.8 in.
        r.offPlane->offset = -48;
        r.offPlane->low = -76.8;
        r.offPlane->high = -19.2;
        r.offPlane->basis = basis;
        const auto s = solved(p.b);
        const auto& d = s.dimensions[0];
        EXPECT_EQ(d.ceiling, expected);
        EXPECT_NEAR(*d.value, 85.1, 0.05);
        EXPECT_NEAR(
            *d.u,
            85.1 * std::sqrt(std::pow(0.06 / std::sqrt(3.0) / 1.1, 2) + std::pow(3.0 / 412, 2) +
                             std::pow(2.0 / 301, 2) + std::pow(0.4 / 56.5, 2)),
            0.01);
        const auto names = mustHave(s, 0);
        EXPECT_TRUE(std::ranges::count(names, "r1/off_plane"));
    }
}

TEST(Guess, ASizeMayBePulledByAGuessWithoutRestingOnIt) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 100, 1, b.source());
    b.reading(d, 104, std::nullopt, "", Basis::Guessed);
    const auto s = solved(b);
    const auto& found = s.dimensions[0];
    const double guess = 0.03 * 104 / std::sqrt(3.0);
    const double weight = 1 / (guess * guess), all = 1 + weight;
    EXPECT_FALSE(found.restsOnGuess);
    EXPECT_NEAR(*found.value, (100 + 104 * weight) / all, 1e-9);
    EXPECT_NEAR(found.guessShare, weight / all, 1e-9);
    EXPECT_NEAR(*found.valueWithoutGuess, 100, 1e-12);
    EXPECT_NEAR(*found.uWithoutGuess, 1, 1e-12);
    EXPECT_EQ(found.ceiling, Grade::Figured);
}

TEST(Guess, TwoGuessesCannotCoverForEachOther) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 100, 0.001, "", Basis::Guessed);
    b.reading(d, 100, 0.001, "", Basis::Guessed);
    const auto s = solved(b);
    EXPECT_TRUE(s.dimensions[0].restsOnGuess);
    EXPECT_TRUE(s.dimensions[0].mustHave.empty());
}

// grading.md, example 8: the rib from the spar, the spar from a drawing scaled on the rib.
TEST(Circular, ALoopWithoutADatumHasNoValue) {
    NetSketch b;
    const auto rib = b.dimension(), spar = b.dimension(), other = b.dimension();
    b.reading(other, 5, 0.1, b.source());
    const auto drawing = b.source(SourceKind::Drawing), photo = b.source(SourceKind::Drawing);
    b.frame(drawing).references = {NetSketch::reference(b.segment(drawing, 100), rib)};
    b.frame(photo).references = {NetSketch::reference(b.segment(photo, 300), spar)};
    b.scaled(spar, "g1", b.segment(drawing, 333));
    b.scaled(rib, "g2", b.segment(photo, 91));  // does not even agree: noise must not decide
    const auto s = solved(b);
    EXPECT_EQ(s.dimensions[0].footing, Footing::Circular);
    EXPECT_EQ(s.dimensions[1].footing, Footing::Circular);
    EXPECT_FALSE(s.dimensions[0].value);
    EXPECT_FALSE(s.dimensions[0].ceiling);
    ASSERT_EQ(s.circles.size(), 1U);
    EXPECT_EQ(s.circles[0].dimensions.size(), 2U);
    EXPECT_EQ(s.circles[0].path.size(), 9U);  // d1 – link – scale – link – d2 … and back
    EXPECT_EQ(s.circles[0].path.front(), s.circles[0].path.back());
    EXPECT_DOUBLE_EQ(*s.dimensions[2].value, 5);
    // Cutting it: a surviving rib cap gives the rib H and the spar T.
    b.reading(rib, 10, 0.05, b.source(SourceKind::Part), Basis::Gauged).feature =
        record::Feature::Original;
    const auto cut = solved(b);
    EXPECT_TRUE(cut.circles.empty());
    EXPECT_EQ(cut.dimensions[0].ceiling, Grade::InHand);
    EXPECT_EQ(cut.dimensions[1].ceiling, Grade::TakenOff);
    // Now the loop is a check.
    EXPECT_EQ(cut.redundancy, 1);
}

TEST(Circular, TooFewEquationsAreUndeterminedNotCircular) {
    NetSketch b;
    const auto drawing = b.source(SourceKind::Drawing);
    b.frame(drawing);
    b.scaled(b.dimension(), "g1", b.segment(drawing, 100));
    b.dimension();
    const auto s = solved(b);
    EXPECT_EQ(s.dimensions[0].footing, Footing::Undetermined);
    EXPECT_EQ(s.dimensions[1].footing, Footing::Undetermined);
    EXPECT_TRUE(s.circles.empty());
    EXPECT_FALSE(s.frames[0].hasReference);
    EXPECT_FALSE(s.dimensions[0].why.empty());
}

TEST(Circular, AReadingOnACircleDoesNotLeadItsOrigin) {
    NetSketch b;
    const auto d = b.dimension();
    const auto original = b.source(SourceKind::Drawing);
    const auto copy = b.source(SourceKind::Drawing);
    b.descends(copy, original);
    b.frame(original).references = {NetSketch::reference(b.segment(original, 100), d)};
    b.scaled(d, "g1", b.segment(original, 101));
    b.reading(d, 10, 0.1, copy, Basis::Figured);
    const auto s = solved(b);
    EXPECT_EQ(s.readings[0].use, ReadingUse::Echo);
    EXPECT_DOUBLE_EQ(*s.dimensions[0].value, 10);
}

TEST(Limits, ActOnlyWhereNothingElseDetermines) {
    NetSketch b;
    const auto boxed = b.dimension(), known = b.dimension();
    b.limits(boxed, 3, std::nullopt);
    b.limits(boxed, 2, 5);
    b.reading(known, 4.9, 0.2, b.source());
    b.limits(known, 2, 5);
    const auto s = solved(b);
    EXPECT_NEAR(*s.dimensions[0].value, 4, 1e-12);
    EXPECT_NEAR(*s.dimensions[0].u, 1 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(s.dimensions[0].interval95->low, 3.05, 1e-9);
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::BoxedIn);
    EXPECT_TRUE(s.dimensions[0].limits.acts);
    EXPECT_EQ(mustHave(s, 0), (std::vector<std::string>{"r1", "r2"}));
    // Where the size is known they do not pull: they cut the interval.
    EXPECT_DOUBLE_EQ(*s.dimensions[1].value, 4.9);
    EXPECT_DOUBLE_EQ(s.dimensions[1].interval95->high, 5);
    EXPECT_NEAR(s.dimensions[1].uncut95->high, 4.9 + 1.959964 * 0.2, 1e-6);
    EXPECT_FALSE(s.dimensions[1].limits.excludes);
    EXPECT_TRUE(s.dimensions[1].mustHave.empty());  // without the reading the limits would hold it
}

TEST(Limits, AnEmptyIntersectionAndAValueOutsideAreTold) {
    NetSketch b;
    const auto empty = b.dimension(), outside = b.dimension();
    b.limits(empty, 5, std::nullopt);
    b.limits(empty, std::nullopt, 4);
    b.reading(outside, 6, 0.1, b.source());
    b.limits(outside, std::nullopt, 5);
    const auto s = solved(b);
    EXPECT_TRUE(s.dimensions[0].limits.empty);
    EXPECT_FALSE(s.dimensions[0].value);
    EXPECT_TRUE(s.dimensions[1].limits.excludes);
    EXPECT_DOUBLE_EQ(s.dimensions[1].interval95->high, s.dimensions[1].uncut95->high);
}

TEST(Limits, AnAlteredFeatureGivesNoBareValue) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 2, 0.01, b.source(SourceKind::Part), Basis::Gauged).feature =
        record::Feature::Altered;
    const auto s = solved(b);
    EXPECT_EQ(s.readings[0].use, ReadingUse::LeftOut);
    EXPECT_FALSE(s.dimensions[0].value);
}

TEST(ExactRelation, ContradictingOnesAreLeftOutAndTold) {
    NetSketch b;
    const auto a = b.dimension(), c = b.dimension();
    b.reading(a, 10, 0.1, b.source());
    b.reading(c, 20, 0.1, b.source());
    b.relation("D2 = 2*D1");
    b.relation("D2 = 2*D1 + 3 in");
    const auto s = solved(b);
    EXPECT_TRUE(s.relations[0].contradicted);
    EXPECT_TRUE(s.relations[1].contradicted);
    EXPECT_DOUBLE_EQ(*s.dimensions[1].value, 20);
    EXPECT_NEAR(*s.relations[0].w, 0, 1e-9);
    EXPECT_NEAR(*s.relations[1].misclosure, -3, 1e-9);
    EXPECT_NEAR(*s.relations[1].w, 3 / std::hypot(0.1, 0.2), 1e-9);
    EXPECT_FALSE(s.relations[1].holds);
}

TEST(ExactRelation, ContradictingTheDataHasWFromLeavingItOut) {
    NetSketch b;
    b.reading(b.dimension(), 10, 0.1, b.source());
    b.reading(b.dimension(), 22, 0.1, b.source());
    b.relation("D2 = 2*D1");
    const auto s = solved(b);
    EXPECT_NEAR(*s.dimensions[1].value, 2 * *s.dimensions[0].value, 1e-12);
    EXPECT_NEAR(*s.relations[0].misclosure, 2, 1e-9);
    EXPECT_NEAR(std::abs(*s.relations[0].w), 2 / std::hypot(0.1, 0.2), 1e-9);
    EXPECT_NEAR(*s.relations[0].mde, 4.132148 * std::hypot(0.1, 0.2), 1e-9);
    EXPECT_FALSE(s.relations[0].holds);
}

// grading.md, example 12: the log's weight does not change any part.
TEST(Check, ARelationThatOnlyChecksPullsNothing) {
    NetSketch b;
    const auto parts = b.dimension(record::DimensionQuantity::Mass);
    const auto total = b.dimension(record::DimensionQuantity::Mass);
    b.reading(parts, 571, 24, b.source());
    b.reading(total, 605, 5, b.source());
    b.relation("D2 = D1").use = record::RelationUse{record::Use::Check};
    const auto s = solved(b);
    EXPECT_DOUBLE_EQ(*s.dimensions[0].value, 571);
    EXPECT_NEAR(*s.relations[0].misclosure, 34, 1e-12);
    EXPECT_NEAR(*s.relations[0].w, -34 / std::hypot(24, 5), 1e-12);
    EXPECT_TRUE(s.relations[0].holds);
    EXPECT_FALSE(s.relations[0].used);
}

TEST(Infer, ActsOnlyWhereItsDimensionHasNothingElseAndGivesBAtBest) {
    NetSketch b;
    const auto bed = b.dimension(record::DimensionQuantity::Mass);
    b.reading(b.dimension(record::DimensionQuantity::Mass), 605, 5, b.source());
    b.reading(b.dimension(record::DimensionQuantity::Mass), 500, 5, b.source());
    b.relation("D2 = D3 + D1", 0, Basis::Geometry).use =
        record::RelationUse{record::Infer{record::DimensionId{bed}}};
    const auto s = solved(b);
    EXPECT_TRUE(s.relations[0].inferred);
    EXPECT_NEAR(*s.dimensions[0].value, 105, 1e-9);
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::BoxedIn);
    b.reading(bed, 90, 2, b.source());
    const auto known = solved(b);
    EXPECT_FALSE(known.relations[0].used);
    EXPECT_DOUBLE_EQ(*known.dimensions[0].value, 90);
    EXPECT_NEAR(*known.relations[0].misclosure, 15, 1e-9);
}

TEST(Workmanship, TenGaugingsOfOnePartAreOneArticle) {
    NetSketch b;
    b.reg.archive.workmanship = 0.03;
    const auto d = b.dimension();
    for (int i = 0; i < 2; ++i) {
        auto& r = b.reading(d, 10, 0.01, b.source(SourceKind::Part), Basis::Gauged);
        r.article = "the sash";
        r.feature = record::Feature::Original;
    }
    const auto s = solved(b);
    EXPECT_NEAR(*s.dimensions[0].u, std::hypot(0.01 / std::sqrt(2.0), 0.03), 1e-12);
    b.reg.readings[1].article = "another sash";
    EXPECT_NEAR(*solved(b).dimensions[0].u, std::hypot(0.01, 0.03) / std::sqrt(2.0), 1e-12);
}

TEST(KnownLength, TheSameOneInTwoFramesIsOneUnknown) {
    NetSketch b;
    const auto standard = b.source(SourceKind::Standard);
    const auto d = b.dimension();
    for (int i = 0; i < 2; ++i) {
        const auto drawing = b.source(SourceKind::Drawing);
        b.frame(drawing).references = {
            NetSketch::reference(b.segment(drawing, 1000, 0), 36, 0.36, standard, Basis::Stated)};
        b.scaled(d, "g" + std::to_string(i + 1), b.segment(drawing, 1000, 1));
    }
    const auto s = solved(b);
    const double px = std::sqrt(2.0) * 36 / 1000;
    EXPECT_NEAR(*s.dimensions[0].u, std::sqrt(px * px / 2 + 0.36 * 0.36), 1e-6);
}

TEST(Printed, DefaultsAndTheDraughtsmansPlacing) {
    NetSketch b;
    const auto sheet = b.source(SourceKind::Drawing);
    auto& f = b.frame(sheet, FrameModel::Printed);
    f.print = record::Print{400, 24, {}, {}};
    b.scaled(b.dimension(), "g1", b.segment(sheet, 1000));
    const auto s = solved(b);
    EXPECT_NEAR(*s.dimensions[0].value, 60, 1e-12);
    const double px = 0.5 * std::sqrt(2.0) * 0.06, placing = 0.01 * 24 * std::sqrt(2.0 / 3);
    EXPECT_NEAR(*s.dimensions[0].u, std::sqrt(px * px + placing * placing + 0.3 * 0.3), 1e-9);
    EXPECT_EQ(s.dimensions[0].ceiling, Grade::TakenOff);
    EXPECT_EQ(mustHave(s, 0), (std::vector<std::string>{"g1/print", "r1"}));
}

TEST(OtherModels, AreLeftOutWithAReason) {
    NetSketch b;
    const auto photo = b.source(SourceKind::Photograph);
    b.frame(photo, FrameModel::Plane);
    b.scaled(b.dimension(), "g1", b.segment(photo, 1000));
    const auto s = solved(b);
    EXPECT_EQ(s.readings[0].use, ReadingUse::LeftOut);
    EXPECT_FALSE(s.readings[0].why.empty());
    EXPECT_FALSE(s.frames[0].supported);
    EXPECT_FALSE(s.dimensions[0].value);
}

TEST(SingleOrigin, IsTheOneWhoseRemovalLeavesNothing) {
    NetSketch b;
    const auto d = b.dimension();
    b.reading(d, 10, 0.1, b.source());
    EXPECT_EQ(solved(b).dimensions[0].singleOrigin->text, "s1");
    b.reading(d, 10, 0.1, b.source());
    EXPECT_FALSE(solved(b).dimensions[0].singleOrigin);
}

TEST(Undetermined, NeverSpoilsTheRest) {
    NetSketch b;
    const auto a = b.dimension(), open = b.dimension(), alsoOpen = b.dimension();
    b.reading(a, 10, 0.1, b.source());
    b.relation("D1 = D2 + D3");
    const auto s = solved(b);
    EXPECT_DOUBLE_EQ(*s.dimensions[0].value, 10);
    EXPECT_FALSE(s.dimensions[1].value);
    EXPECT_FALSE(s.dimensions[2].value);
    (void)open;
    (void)alsoOpen;
}

TEST(BadRecord, IsRefusedWithItsPlace) {
    NetSketch b;
    b.reading(b.dimension(), 10, 0.1, b.source());
    b.relation("D1 = D1 + ");
    const auto s = network::solve(b.reg);
    ASSERT_FALSE(s.has_value());
    EXPECT_EQ(s.error().code, Code::BadFormula);
    EXPECT_TRUE(s.error().place.starts_with("/relations/0/formula")) << s.error().place;
}

}  // namespace

#include "evidence-core/exchange/analysis_json.h"
#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

#include <random>

// What must never change an answer: order of entry, names, signatures, copies.

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

/// A bit of everything: figures, a copy, a scaled picture, a closure, a guess, a limit, a conflict.
RegisterBuilder mixed() {
    RegisterBuilder b;
    b.dimension("d1", "Sill length").tolerance = 0.25;
    b.dimension("d2", "First bay");
    b.dimension("d3", "Second bay");
    b.dimension("d4", "Post width");
    b.dimension("d5", "Rail height");
    b.particular("q1", "Panel timber");
    b.source("s1", "General arrangement").creator = "Corran works";
    b.source("s2", "Tracing", SourceKind::Drawing, Authority::Later)
        .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Tracing});
    b.pictured("s3", "Broadside photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s4", "Plate catalogue", SourceKind::Standard);
    b.source("s5", "Inspector's sheet").creator = "H. Vale";
    b.segment("m1", "s3", 360);
    b.segment("m2", "s3", 205);
    b.segment("m3", "s3", 190);
    b.reference(b.uniform("g1", "s3"), "m1", 36, 0.05, "s4", Basis::Stated);
    b.scaled("r1", "d2", "g1", "m2");
    b.scaled("r2", "d3", "g1", "m3");
    b.reading("r3", "d1", Basis::Figured, "s1", std::string("39 1/2"), 0.1);
    b.reading("r4", "d1", Basis::Figured, "s2", std::string("39 1/2"), 0.1);
    b.guess("r5", "d4", 3.5, 0.5);
    b.limit("r6", "d4", 3.0, std::nullopt, "s3");
    b.reading("r7", "d5", Basis::Figured, "s1", std::string("38.5"), 0.15);
    b.reading("r8", "d5", Basis::Figured, "s5", std::string("39.5"), 0.10);
    b.reading("r9", "q1", Basis::Stated, "s1", std::string("oak"));
    b.relation("l1", "D1 = D2 + D3", Basis::Geometry);
    b.ruling("k1", "d1", std::string("39 1/2"));
    return b;
}

class Shuffle : public testing::TestWithParam<unsigned> {};

TEST_P(Shuffle, LeavesTheAnswerAsItIsToTheLastByte) {
    auto b = mixed();
    const auto before = evidence::exchange::analysisJson(b.analyse());
    std::mt19937 random(GetParam());
    std::ranges::shuffle(b.reg.sources, random);
    std::ranges::shuffle(b.reg.marks, random);
    std::ranges::shuffle(b.reg.dimensions, random);
    std::ranges::shuffle(b.reg.readings, random);
    EXPECT_EQ(evidence::exchange::analysisJson(b.analyse()), before);
}

INSTANTIATE_TEST_SUITE_P(Seeds, Shuffle, testing::Values(1U, 2U, 3U, 4U, 5U));

TEST(Answer, DoesNotChangeWithASignature) {
    auto b = mixed();
    const auto before = evidence::exchange::analysisJson(b.analyse());
    b.reg.signoffs.push_back({.id = {"y1"},
                              .on = {"d1"},
                              .by = {"p1"},
                              .at = "2026-05-03T08:00:00Z",
                              .verdict = record::Verdict::Seen});
    EXPECT_EQ(evidence::exchange::analysisJson(b.analyse()), before);
}

TEST(Answer, KeepsItsNumbersAndGradesWhenThingsAreRenamed) {
    auto b = mixed();
    const auto before = b.analyse();
    for (auto& dimension : b.reg.dimensions) dimension.name += " of the car";
    for (auto& source : b.reg.sources) source.title = "The " + source.title;
    const auto after = b.analyse();
    ASSERT_EQ(before.dimensions.size(), after.dimensions.size());
    for (std::size_t i = 0; i < before.dimensions.size(); ++i) {
        EXPECT_EQ(before.dimensions[i].value, after.dimensions[i].value);
        EXPECT_EQ(before.dimensions[i].grade, after.dimensions[i].grade);
        EXPECT_EQ(before.dimensions[i].flags, after.dimensions[i].flags);
        EXPECT_EQ(before.dimensions[i].digest, after.dimensions[i].digest);
    }
}

TEST(Answer, IsNoBetterForACopyOfASource) {
    auto b = mixed();
    const auto before = b.analyse();
    b.source("s9", "Second tracing", SourceKind::Drawing, Authority::Later)
        .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Tracing});
    b.reading("r20", "d1", Basis::Figured, "s9", std::string("39 1/2"), 0.01);
    const auto after = b.analyse();
    for (const auto& size : before.dimensions) {
        EXPECT_GE(sizeIn(after, size.id.text).grade, size.grade) << size.id.text;
        EXPECT_GE(*sizeIn(after, size.id.text).u, *size.u - 1e-12) << size.id.text;
        EXPECT_EQ(sizeIn(after, size.id.text).origins, size.origins) << size.id.text;
    }
}

TEST(Answer, NeverLetsASmallGuessBuyAGrade) {
    for (const double halfWidth : {0.5, 1e-2, 1e-6}) {
        RegisterBuilder b;
        b.dimension("d1", "Post width");
        b.guess("r1", "d1", 3.5, halfWidth).floorReason = "the joiner was sure";
        EXPECT_EQ(letterOf(b.analyse(), "d1"), "O");
    }
}

}  // namespace

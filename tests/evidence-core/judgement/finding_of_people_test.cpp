#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

// Findings about what people decided, handed out, asked or left undone, and about files.

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

RegisterBuilder ruled() {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.pictured("s1", "General arrangement", SourceKind::Drawing, Authority::Maker);
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("38 1/2"), 0.05);
    b.ruling("k1", "d1", std::string("38 1/2"));
    return b;
}

bool raises(const RegisterBuilder& b, const std::string& kind, const std::string& on,
            const judgement::AnalyseOptions& options = {}) {
    return findingOn(b.analyse(options), kind, on) != nullptr;
}

void keepEvidence(RegisterBuilder& b) {
    const auto analysis = b.analyse();
    const auto& size = sizeIn(analysis, "d1");
    b.reg.rulings.back().evidence =
        record::EvidenceState{size.value, size.u, size.grade, size.digest};
}

TEST(FindingRuling, IsStaleOnceItsEvidenceChanges) {
    auto b = ruled();
    EXPECT_FALSE(raises(b, "ruling-stale", "d1"));  // no digest: taken as it is
    keepEvidence(b);
    EXPECT_FALSE(raises(b, "ruling-stale", "d1"));
    b.reg.dimensions.back().name = "Sole bar length";
    b.reg.readings.back().reason = "a note";
    EXPECT_FALSE(raises(b, "ruling-stale", "d1"));
    b.source("s2", "Ledger", SourceKind::Text).creator = "H. Vale";
    b.reading("r2", "d1", Basis::Stated, "s2", std::string("38 1/2"), 0.05);
    EXPECT_TRUE(raises(b, "ruling-stale", "d1"));
}

TEST(FindingRuling, OnceSupersededIsNoLongerLookedAt) {
    auto b = ruled();
    keepEvidence(b);
    b.reg.readings.back().u = 0.06;
    EXPECT_TRUE(raises(b, "ruling-stale", "d1"));
    b.ruling("k2", "d1", std::string("38 1/2"), "2026-06-01T10:00:00Z");
    b.reg.rulings.back().supersedes = record::RulingId{"k1"};
    keepEvidence(b);
    EXPECT_FALSE(raises(b, "ruling-stale", "d1"));
}

TEST(FindingRuling, LiesOutsideTheEvidenceUnlessADepartureSaysWhy) {
    auto b = ruled();
    EXPECT_FALSE(raises(b, "ruling-outside", "d1"));
    b.reg.rulings.back().value = std::string("39");
    EXPECT_TRUE(raises(b, "ruling-outside", "d1"));
    record::Departure departure;
    departure.id = {"x1"};
    departure.on = {"d1"};
    departure.to = std::string("39");
    departure.reason = "longer for the new brake";
    b.reg.departures.push_back(departure);
    EXPECT_FALSE(raises(b, "ruling-outside", "d1"));
}

TEST(FindingReason, IsMissingWhereOnlySpacesStand) {
    auto b = ruled();
    EXPECT_FALSE(raises(b, "no-reason", "d1"));
    b.reg.rulings.back().reason = "  ";
    EXPECT_TRUE(raises(b, "no-reason", "d1"));
    auto guessed = ruled();
    guessed.guess("r2", "d1", 38, 2).reason.reset();
    EXPECT_TRUE(raises(guessed, "no-reason", "d1"));
}

TEST(FindingSlip, IsReleasedEarlyBeforeAnyRuling) {
    auto b = ruled();
    b.reg.slips.push_back({.id = {"b1"},
                           .on = {"d1"},
                           .value = std::string("38 1/2"),
                           .by = {"p1"},
                           .at = "2026-05-02T08:00:00Z"});
    EXPECT_FALSE(raises(b, "released-early", "d1"));
    b.reg.slips.back().at = "2026-04-02T08:00:00Z";
    EXPECT_TRUE(raises(b, "released-early", "d1"));
}

TEST(FindingSlip, HasMovedUntilTheShopIsTold) {
    auto b = ruled();
    b.reg.slips.push_back({.id = {"b1"},
                           .on = {"d1"},
                           .value = std::string("38 1/2"),
                           .by = {"p1"},
                           .at = "2026-05-02T08:00:00Z"});
    EXPECT_FALSE(raises(b, "slip-moved", "d1"));
    b.reg.readings.back().value = std::string("39");
    EXPECT_TRUE(raises(b, "slip-moved", "b1"));
    b.reg.slips.push_back({.id = {"b2"},
                           .on = {"d1"},
                           .value = std::string("39"),
                           .by = {"p1"},
                           .at = "2026-06-02T08:00:00Z"});
    EXPECT_FALSE(raises(b, "slip-moved", "d1"));
}

TEST(FindingDeparture, IsNotedAndWantsApproval) {
    auto b = ruled();
    record::Departure departure;
    departure.id = {"x1"};
    departure.on = {"d1"};
    departure.to = std::string("40");
    departure.why = record::DepartureWhy::Law;
    departure.reason = "today's brake rules";
    b.reg.departures.push_back(departure);
    EXPECT_TRUE(raises(b, "departure", "d1"));
    EXPECT_TRUE(raises(b, "departure-unapproved", "d1"));
    b.reg.departures.back().approvals.push_back(
        {.by = {"p1"}, .as = record::ApprovalSide::History});
    EXPECT_FALSE(raises(b, "departure-unapproved", "d1"));
    b.reg.dimensions.back().critical = true;
    EXPECT_TRUE(raises(b, "departure-unapproved", "d1"));
}

TEST(FindingQuery, StaysUntilItIsAnswered) {
    auto b = ruled();
    b.reg.queries.push_back(
        {.id = {"y1"}, .on = {"d1"}, .by = {"p1"}, .text = "Over or under the skin?"});
    EXPECT_TRUE(raises(b, "open-query", "d1"));
    b.reg.queries.back().state = record::QueryState::Settled;
    EXPECT_FALSE(raises(b, "open-query", "d1"));
}

TEST(FindingLowered, LowersAndNeverRaises) {
    auto b = ruled();
    b.reg.lowered.push_back({.id = {"g1"},
                             .on = {"d1"},
                             .grade = record::Grade::BoxedIn,
                             .reason = "the figure is smudged",
                             .by = {"p1"},
                             .at = "2026-05-02T08:00:00Z"});
    EXPECT_TRUE(raises(b, "grade-lowered", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "B");
    b.reg.lowered.back().grade = record::Grade::InHand;
    EXPECT_FALSE(raises(b, "grade-lowered", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "F");
}

TEST(FindingLowered, WithoutAReasonTakesNoHold) {
    auto b = ruled();
    b.reg.lowered.push_back({.id = {"g1"},
                             .on = {"d1"},
                             .grade = record::Grade::BoxedIn,
                             .reason = "  ",
                             .by = {"p1"},
                             .at = "2026-05-02T08:00:00Z"});
    EXPECT_TRUE(raises(b, "no-reason", "g1"));
    EXPECT_FALSE(raises(b, "grade-lowered", "d1"));
    EXPECT_EQ(letterOf(b.analyse(), "d1"), "F");
}

TEST(FindingFile, IsMissingOrAltered) {
    const auto b = ruled();
    EXPECT_FALSE(raises(b, "file-missing", "s1"));
    judgement::AnalyseOptions options;
    options.surroundings.missingFiles = {{"fs1"}};
    EXPECT_TRUE(raises(b, "file-missing", "s1", options));
    options.surroundings = {{}, {{"fs1"}}, "entry 12 does not follow from entry 11."};
    EXPECT_TRUE(raises(b, "file-altered", "fs1", options));
    const auto analysis = b.analyse(options);
    EXPECT_TRUE(std::ranges::any_of(analysis.findings,
                                    [](const auto& f) { return f.kind == "journal-broken"; }));
}

TEST(Acknowledgement, LapsesWhenItsEvidenceChanges) {
    auto b = ruled();
    const auto before = b.analyse();
    const auto* finding = findingOn(before, "single-origin", "d1");
    ASSERT_TRUE(finding);
    EXPECT_FALSE(finding->acknowledged);
    b.reg.acknowledgements.push_back({.id = {"z1"},
                                      .finding = {"single-origin", finding->on},
                                      .reason = "no other source is known",
                                      .by = {"p1"},
                                      .at = "2026-05-03T08:00:00Z",
                                      .digest = finding->digest});
    const auto seen = b.analyse();
    EXPECT_TRUE(findingOn(seen, "single-origin", "d1")->acknowledged);
    b.reg.readings.back().u = 0.07;
    const auto after = b.analyse();
    EXPECT_FALSE(findingOn(after, "single-origin", "d1")->acknowledged);
}

}  // namespace

#include "evidence-core/judgement/finding/finder.h"
#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

// Every kind of finding in one table: a register that raises it, how severe, on what, with which
// numbers. The neighbours that do not raise it: finding_test.cpp, finding_of_people_test.cpp.

namespace {

using namespace testsupport;
using judgement::Severity;
using record::Authority;
using record::Basis;
using record::SourceKind;

struct Raised {
    std::string kind;
    Severity severity;
    std::function<RegisterBuilder()> reg;
    std::vector<std::string> on;  ///< all records, the first one first
    std::vector<std::pair<std::string, double>> numbers;
    judgement::AnalyseOptions options = {};
};

RegisterBuilder figured(double value = 38.5, double u = 0.05) {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.source("s1", "General arrangement").creator = "Corran works";
    b.reading("r1", "d1", Basis::Figured, "s1", b.number(value), u);
    return b;
}

RegisterBuilder withSecond(double value, double u) {
    auto b = figured();
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r2", "d1", Basis::Figured, "s2", b.number(value), u);
    return b;
}

RegisterBuilder copied(double value) {
    auto b = figured();
    b.source("s2", "Tracing", SourceKind::Drawing, Authority::Later)
        .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Tracing});
    b.reading("r2", "d1", Basis::Figured, "s2", b.number(value), 0.05);
    return b;
}

RegisterBuilder pictured(double pixels = 200) {
    RegisterBuilder b;
    b.dimension("d1", "Window width");
    b.pictured("s1", "Broadside photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s2", "Plate catalogue", SourceKind::Standard);
    b.segment("m1", "s1", 360);
    b.segment("m2", "s1", pixels);
    b.reference(b.uniform("g1", "s1"), "m1", 36, 0.05, "s2", Basis::Stated);
    b.scaled("r1", "d1", "g1", "m2").offPlane =
        record::OffPlane{.offset = 0, .u = 0.5, .distance = 300, .basis = Basis::Measured};
    return b;
}

RegisterBuilder circle() {
    RegisterBuilder b;
    b.dimension("d1", "Spar length");
    b.dimension("d2", "Rib length");
    b.pictured("s1", "Wing drawing", SourceKind::Drawing, Authority::Maker);
    b.segment("m1", "s1", 400);
    b.segment("m2", "s1", 1200);
    b.referenceTo(b.uniform("g1", "s1"), "m1", "d2");
    b.scaled("r1", "d1", "g1", "m2");
    b.relation("l1", "D2 = D1/3", Basis::TradeRule, 0.05);
    return b;
}

RegisterBuilder openLoop() {
    auto b = figured();
    b.dimension("d2", "First bay");
    b.dimension("d3", "Second bay");
    b.reading("r2", "d2", Basis::Figured, "s1", b.number(19.0), 0.05);
    b.reading("r3", "d3", Basis::Figured, "s1", b.number(20.5), 0.05);
    b.relation("l1", "D1 = D2 + D3", Basis::Geometry).use = record::Use::Check;
    return b;
}

RegisterBuilder ruled() {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.pictured("s1", "General arrangement", SourceKind::Drawing, Authority::Maker);
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("38 1/2"), 0.05);
    b.ruling("k1", "d1", std::string("38 1/2"));
    return b;
}

RegisterBuilder with(RegisterBuilder b, const std::function<void(RegisterBuilder&)>& change) {
    change(b);
    return b;
}

void slip(RegisterBuilder& b, const std::string& value, const std::string& at) {
    b.reg.slips.push_back({.id = {"b1"}, .on = {"d1"}, .value = value, .by = {"p1"}, .at = at});
}

void departure(RegisterBuilder& b) {
    record::Departure made;
    made.id = {"x1"};
    made.on = {"d1"};
    made.to = std::string("40");
    made.why = record::DepartureWhy::Law;
    made.reason = "today's brake rules";
    b.reg.departures.push_back(made);
}

void states(RegisterBuilder& b) {
    b.reg.states = {{.id = {"t1"}, .label = "as built", .from = "1911", .to = "1912"},
                    {.id = {"t2"}, .label = "altered", .from = "1913", .to = "1919"}};
    b.reg.dimensions.back().state = record::StateId{"t1"};
    b.reg.sources.front().states = {{"t2"}};
}

judgement::AnalyseOptions around(judgement::Surroundings surroundings) {
    judgement::AnalyseOptions options;
    options.surroundings = std::move(surroundings);
    return options;
}

const std::vector<Raised>& table() {
    static const std::vector<Raised> rows{
        {"conflict",
         Severity::High,
         [] { return withSecond(38.9, 0.05); },
         {"d1", "r1", "r2"},
         {{"w", 5.65685424949}, {"difference", 0.4}, {"u_difference", 0.0707106781187}}},
        {"loop-open",
         Severity::High,
         openLoop,
         {"l1", "d1", "d2", "d3"},
         {{"misclosure", -1.0}, {"w", 1 / std::hypot(0.05, 0.05, 0.05)}}},
        {"circular", Severity::High, circle, {"d2", "d1", "g1"}, {{"dimensions", 2}}},
        {"limits-exclude",
         Severity::High,
         [] { return with(figured(), [](auto& b) { b.limit("r2", "d1", std::nullopt, 38.0); }); },
         {"d1", "r2"},
         {}},
        {"likely-mistake",
         Severity::High,
         [] { return withSecond(39.5, 0.02); },
         {"d1"},
         {{"likelihood_ratio", 0}, {"signs_tried", 0}, {"corrected", 0}}},
        {"echoes-disagree",
         Severity::High,
         [] { return copied(39.0); },
         {"d1", "r2", "r1"},
         {{"w", 0.5 / std::hypot(0.05, 0.05)}, {"difference", 0.5}}},
        {"outside-readings",
         Severity::High,
         [] {
             return with(withSecond(38.8, 0.30), [](auto& b) {
                 b.reg.sharedErrors.push_back({.id = {"e1"},
                                               .label = "long rule",
                                               .kind = record::SharedErrorKind::Absolute,
                                               .u = 1.0,
                                               .basis = Basis::Measured,
                                               .on = {{.record = {"r1"}, .coefficient = 1},
                                                      {.record = {"r2"}, .coefficient = 2}}});
             });
         },
         {"d1", "r1", "r2"},
         {}},
        {"file-missing",
         Severity::High,
         ruled,
         {"s1", "fs1"},
         {},
         around({.missingFiles = {{"fs1"}}})},
        {"file-altered",
         Severity::High,
         ruled,
         {"s1", "fs1"},
         {},
         around({.alteredFiles = {{"fs1"}}})},
        {"journal-broken",
         Severity::High,
         ruled,
         {},
         {},
         around({.brokenJournal = "entry 12 does not follow from entry 11."})},
        {"slip-moved",
         Severity::High,
         [] {
             return with(ruled(), [](auto& b) {
                 slip(b, "38 1/2", "2026-05-02T08:00:00Z");
                 b.reg.readings.back().value = std::string("39");
             });
         },
         {"d1", "b1"},
         {{"moved", 0.5}}},
        {"rests-on-guess",
         Severity::Medium,
         [] {
             RegisterBuilder b;
             b.dimension("d1", "Post width");
             b.guess("r1", "d1", 3.5, 0.5).on = "2024-05-01";
             b.ruling("k1", "d1", std::string("3 1/2"), "2026-05-01T10:00:00Z");
             return b;
         },
         {"d1"},
         {{"share", 1}, {"value", 3.5}, {"u", 0.288675134595}, {"age_days", 730}}},
        {"undetermined",
         Severity::Medium,
         [] { return with(figured(), [](auto& b) { b.dimension("d2", "Post width"); }); },
         {"d2"},
         {}},
        {"unscaled",
         Severity::Medium,
         [] { return with(pictured(), [](auto& b) { b.reg.frames[0].references.clear(); }); },
         {"g1"},
         {}},
        {"unsupported-reference",
         Severity::Medium,
         [] {
             return with(pictured(), [](auto& b) {
                 auto& length = b.reg.frames[0].references[0].length;
                 length.source.reset();
                 length.basis.reset();
             });
         },
         {"g1", "g1/0"},
         {{"length", 36}}},
        {"pulled-by-guess",
         Severity::Medium,
         [] { return with(figured(38.5, 2.0), [](auto& b) { b.guess("r2", "d1", 39.0, 2.5); }); },
         {"d1"},
         {{"share", 4 / (4 + 6.25 / 3)},
          {"guess_share", 4 / (4 + 6.25 / 3)},
          {"value_without_guess", 38.5},
          {"u_without_guess", 2.0}}},
        {"particular-disagree",
         Severity::Medium,
         [] {
             RegisterBuilder b;
             b.particular("q1", "Stays");
             b.source("s1", "Letter", SourceKind::Text, Authority::Eyewitness);
             b.source("s2", "Photograph", SourceKind::Photograph, Authority::Eyewitness);
             b.reading("r1", "q1", Basis::Stated, "s1", std::string("four"));
             b.reading("r2", "q1", Basis::Stated, "s2", std::string("six"));
             return b;
         },
         {"q1", "r1", "r2"},
         {{"values", 2}, {"origins_for", 1}}},
        {"ruling-stale",
         Severity::Medium,
         [] {
             return with(ruled(), [](auto& b) {
                 b.reg.rulings.back().evidence =
                     record::EvidenceState{38.5, 0.05, record::Grade::Figured, "of another day"};
             });
         },
         {"d1", "k1"},
         {}},
        {"ruling-outside",
         Severity::Medium,
         [] { return with(ruled(), [](auto& b) { b.reg.rulings[0].value = std::string("39"); }); },
         {"d1", "k1"},
         {{"ruled", 39}}},
        {"tolerance-finer",
         Severity::Medium,
         [] { return with(figured(), [](auto& b) { b.reg.dimensions[0].tolerance = 0.125; }); },
         {"d1"},
         {{"half_width95", 0.0979981992270}, {"tolerance", 0.125}}},
        {"off-plane",
         Severity::Medium,
         [] { return with(pictured(), [](auto& b) { b.reg.readings[0].offPlane.reset(); }); },
         {"d1", "r1", "g1"},
         {{"relative_per_inch", 1.0 / 240}, {"error_per_inch", 20.0 / 240}}},
        {"beyond-reference",
         Severity::Medium,
         [] { return pictured(1100); },
         {"d1", "r1", "g1"},
         {{"times", 110.0 / 36}, {"longest_reference", 36}}},
        {"unequal-stretch",
         Severity::Medium,
         [] {
             // 36 in over 360 px across and over 364 px up and down: sx/sy = 364/360.
             auto b = pictured();
             b.reg.sources[0].kind = SourceKind::Drawing;
             b.reg.marks.push_back({.id = {"m9"},
                                    .file = {"fs1"},
                                    .kind = record::MarkKind::Segment,
                                    .points = {{50, 100}, {50, 464}},
                                    .uPx = 0.1});
             b.reg.marks[0].uPx = 0.1;
             b.reference(b.reg.frames[0], "m9", 36, 0.05, "s2", Basis::Stated);
             return b;
         },
         {"g1"},
         {{"ratio", 364.0 / 360}}},
        {"other-state", Severity::Medium, [] { return with(figured(), states); }, {"d1", "r1"}, {}},
        {"proposal-evidence",
         Severity::Medium,
         [] {
             return with(figured(),
                         [](auto& b) { b.reg.sources[0].standing = record::Standing::Proposal; });
         },
         {"d1", "r1", "s1"},
         {}},
        {"altered-part",
         Severity::Medium,
         [] {
             RegisterBuilder b;
             b.dimension("d1", "Hub bore");
             b.source("s1", "Hub", SourceKind::Part);
             b.reading("r1", "d1", Basis::Gauged, "s1", b.number(2.75), 0.002);
             return b;
         },
         {"d1", "r1"},
         {}},
        {"anachronism",
         Severity::Medium,
         [] {
             return with(figured(), [](auto& b) {
                 states(b);
                 b.reg.sources[0].states = {{"t1"}};
                 b.reg.sources[0].date = "1925";
             });
         },
         {"s1", "t1"},
         {}},
        {"double-correction",
         Severity::Medium,
         [] {
             return with(figured(), [](auto& b) {
                 b.reg.readings[0].corrections = {
                     {.label = "pattern contraction", .factor = 1.0104, .u = 0.001},
                     {.label = "casting contraction", .factor = 1.0104, .u = 0.001}};
             });
         },
         {"d1", "r1"},
         {{"corrections", 2}}},
        {"no-reason",
         Severity::Medium,
         [] { return with(ruled(), [](auto& b) { b.reg.rulings[0].reason = "  "; }); },
         {"d1", "k1"},
         {}},
        {"departure-unapproved",
         Severity::Medium,
         [] { return with(ruled(), departure); },
         {"d1", "x1"},
         {}},
        {"single-origin", Severity::Low, [] { return figured(); }, {"d1", "s1"}, {}},
        {"long-chain",
         Severity::Low,
         [] {
             auto b = figured();
             for (int i = 2; i <= 8; ++i) {
                 b.dimension("d" + std::to_string(i), "Link " + std::to_string(i));
                 b.relation("l" + std::to_string(i),
                            "D" + std::to_string(i) + " = D" + std::to_string(i - 1) + " + 1",
                            Basis::Measured, 0.01);
             }
             return b;
         },
         {"d8"},
         {{"steps", 8}}},
        {"released-early",
         Severity::Low,
         [] { return with(ruled(), [](auto& b) { slip(b, "38 1/2", "2026-04-02T08:00:00Z"); }); },
         {"d1", "b1"},
         {}},
        {"default-correction",
         Severity::Low,
         [] { return with(figured(), [](auto& b) { b.reg.readings[0].u.reset(); }); },
         {"d1"},
         {{"leaves", 1}}},
        {"open-query",
         Severity::Low,
         [] {
             return with(ruled(), [](auto& b) {
                 b.reg.queries.push_back(
                     {.id = {"y1"}, .on = {"d1"}, .by = {"p1"}, .text = "Over or under the skin?"});
             });
         },
         {"d1", "y1"},
         {}},
        {"single-reading", Severity::Note, [] { return figured(); }, {"d1", "r1"}, {}},
        {"echo",
         Severity::Note,
         [] { return copied(38.5); },
         {"d1", "r2", "r1"},
         {{"difference", 0}}},
        {"departure", Severity::Note, [] { return with(ruled(), departure); }, {"d1", "x1"}, {}},
        {"grade-lowered",
         Severity::Note,
         [] {
             return with(ruled(), [](auto& b) {
                 b.reg.lowered.push_back({.id = {"g1"},
                                          .on = {"d1"},
                                          .grade = record::Grade::BoxedIn,
                                          .reason = "the figure is smudged",
                                          .by = {"p1"},
                                          .at = "2026-05-02T08:00:00Z"});
             });
         },
         {"d1", "g1"},
         {}},
    };
    return rows;
}

class EveryKind : public ::testing::TestWithParam<Raised> {};

TEST_P(EveryKind, IsRaisedWithItsSeverityRecordsAndNumbers) {
    const Raised& is = GetParam();
    const auto analysis = is.reg().analyse(is.options);
    const auto matches = [&](const judgement::Finding& finding) {
        if (finding.kind != is.kind) return false;
        return std::ranges::all_of(is.on, [&](const std::string& id) {
            return std::ranges::any_of(finding.on, [&](const auto& on) { return on.text == id; });
        });
    };
    const auto found = std::ranges::find_if(analysis.findings, matches);
    ASSERT_NE(found, analysis.findings.end());
    EXPECT_EQ(found->severity, is.severity);
    EXPECT_EQ(judgement::usualSeverity(is.kind), is.severity);
    if (!is.on.empty()) {
        EXPECT_EQ(found->on.front().text, is.on.front());
    }
    if (is.kind != "likely-mistake") {
        EXPECT_EQ(found->on.size(), is.on.size());
    }
    for (const auto& [name, value] : is.numbers) {
        const auto at =
            std::ranges::find(found->numbers, name, &std::pair<std::string, double>::first);
        ASSERT_NE(at, found->numbers.end()) << name;
        // Of likelihoods the table knows only that they are told: mistake_test has their values.
        if (is.kind != "likely-mistake") {
            EXPECT_NEAR(at->second, value, 1e-6 * std::max(1.0, std::abs(value))) << name;
        }
    }
    EXPECT_FALSE(found->settle.empty());
    EXPECT_TRUE(found->text.ends_with('.') || found->text.ends_with("”")) << found->text;
    // Plain trade English: no ids, no words of the trade of statistics.
    for (const char* word : {"sigma", "null", "chi", "variance", "residual", "covariance"})
        EXPECT_EQ(found->text.find(word), std::string::npos) << found->text;
}

INSTANTIATE_TEST_SUITE_P(Kinds, EveryKind, ::testing::ValuesIn(table()), [](const auto& row) {
    std::string name = row.param.kind;
    std::ranges::replace(name, '-', '_');
    return name;
});

TEST(FindingTable, HasEveryKindOfTheContract) {
    for (const auto& [kind, severity] : judgement::allKinds())
        EXPECT_TRUE(std::ranges::any_of(table(), [&, name = kind](const auto& row) {
            return row.kind == name;
        })) << kind;
}

TEST(FindingConflict, AsksWhetherTheSameFigureWasCopied) {
    auto b = figured();
    for (const char* id : {"s2", "s3"})
        b.source(id, std::string("Sheet ") + id).creator = std::string("drawn by ") + id;
    b.reading("r2", "d1", Basis::Figured, "s2", std::string("47 3/16"), 0.05);
    b.reading("r3", "d1", Basis::Figured, "s3", std::string("47 3/16"), 0.05);
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "conflict", "d1");
    ASSERT_TRUE(finding);
    EXPECT_THAT(finding->numbers, ::testing::Contains(::testing::Pair("same_figure", 2.0)));
    EXPECT_NE(finding->settle.find("copied"), std::string::npos) << finding->settle;
}

TEST(FindingCircle, SaysWhichLinkToCutFirst) {
    const auto analysis = circle().analyse();
    const auto* finding = findingOn(analysis, "circular", "d1");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->settle.find("least is lost at the first"), std::string::npos)
        << finding->settle;
    // The trade rule (C) is weaker than what is scaled from the drawing (T).
    EXPECT_LT(finding->settle.find("Rib length = "), finding->settle.find("scal"))
        << finding->settle;
}

TEST(FindingPart, CountsAContractionRuleAsACorrection) {
    auto b = figured();
    auto& reading = b.reg.readings.back();
    reading.instrument = "contraction rule";
    EXPECT_FALSE(findingOn(b.analyse(), "double-correction", "d1"));
    reading.corrections = {{.label = "pattern allowance", .factor = 0.99, .u = 0.001}};
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "double-correction", "d1");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->text.find("contraction rule"), std::string::npos) << finding->text;
}

// Two sheets of different origin with the same slip, against two witnesses of the right size.
TEST(FindingLikelyMistake, TellsThatTwoSourcesShareASlip) {
    auto b = figured(38.5, 0.01);
    for (const char* id : {"s2", "s3", "s4", "s5"})
        b.source(id, std::string("Sheet ") + id).creator = std::string("drawn by ") + id;
    b.reading("r2", "d1", Basis::Figured, "s2", b.number(38.5), 0.01);
    b.reading("r3", "d1", Basis::Figured, "s3", b.number(38.5), 0.01);
    b.reading("r4", "d1", Basis::Figured, "s4", b.number(39.5), 0.05);
    b.reading("r5", "d1", Basis::Figured, "s5", b.number(39.5), 0.05);
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "likely-mistake", "r4");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->text.find("copied"), std::string::npos) << finding->text;
    EXPECT_THAT(finding->numbers, ::testing::Contains(::testing::Pair("shared_by", 2.0)));
}

TEST(FindingGuess, KeepsItsAcknowledgementThoughItAges) {
    RegisterBuilder b;
    b.dimension("d1", "Post width");
    b.guess("r1", "d1", 3.5, 0.5).on = "2024-05-01";
    b.ruling("k1", "d1", std::string("3 1/2"), "2026-05-01T10:00:00Z");
    const auto before = b.analyse();
    b.ruling("k2", "d1", std::string("3 1/2"), "2027-05-01T10:00:00Z");
    const auto after = b.analyse();
    const auto* young = findingOn(before, "rests-on-guess", "d1");
    const auto* old = findingOn(after, "rests-on-guess", "d1");
    ASSERT_TRUE(young && old);
    EXPECT_NE(young->numbers, old->numbers);
    EXPECT_EQ(young->digest, old->digest);
    EXPECT_NE(old->text.find("3 years before the latest entry"), std::string::npos) << old->text;
}

}  // namespace

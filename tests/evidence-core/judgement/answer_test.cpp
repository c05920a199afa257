#include "evidence-core/exchange/analysis_json.h"
#include "evidence-core/judgement/finding/finder.h"
#include "tests/support/register_builder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <set>

namespace {

using namespace testsupport;
using Json = nlohmann::ordered_json;
using record::Basis;

std::vector<std::string> keysOf(const Json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key);
    return keys;
}

Json answerOf(const judgement::Analysis& analysis) {
    return Json::parse(evidence::exchange::analysisJson(analysis));
}

judgement::Analysis oneOfEach() {
    judgement::Analysis a;
    a.parts.emplace_back();
    a.dimensions.emplace_back();
    a.dimensions.back().readings.emplace_back();
    a.dimensions.back().value = 1.0 / 3.0;
    a.particulars.emplace_back();
    a.relations.emplace_back();
    a.frames.emplace_back();
    a.frames.back().references.emplace_back();
    a.covariance.push_back({{"d1"}, {"d2"}, 0.5});
    a.findings.emplace_back();
    a.findings.back().numbers = {{"w", 4.0}};
    a.seekNext.emplace_back();
    a.hurtsMost.emplace_back();
    return a;
}

// Key for key the answer of docs/exchange.md.
TEST(AnalysisJson, HasTheKeysOfTheContractInItsOrder) {
    using List = std::vector<std::string>;
    const auto json = answerOf(oneOfEach());
    EXPECT_EQ(keysOf(json),
              (List{"format", "version", "network", "parts", "dimensions", "particulars",
                    "relations", "frames", "covariance", "findings", "seek_next", "hurts_most"}));
    EXPECT_EQ(keysOf(json["network"]),
              (List{"unknowns", "observations", "redundancy", "chi2", "p", "converged"}));
    EXPECT_EQ(keysOf(json["parts"][0]), (List{"dimensions", "redundancy", "chi2", "p"}));
    EXPECT_EQ(keysOf(json["dimensions"][0]),
              (List{"id",         "code",          "unit",    "value",     "u",
                    "low95",      "high95",        "draws",   "grade",     "grade_why",
                    "raise_by",   "must_have",     "steps",   "estimable", "rests_on_guess",
                    "guess_pull", "without_guess", "origins", "flags",     "readings"}));
    EXPECT_EQ(keysOf(json["dimensions"][0]["readings"][0]),
              (List{"id", "value", "u", "residual", "redundancy", "w", "mde", "pull",
                    "variance_share", "echo_of"}));
    EXPECT_EQ(keysOf(json["particulars"][0]),
              (List{"id", "value", "grade", "grade_why", "origins", "agree"}));
    EXPECT_EQ(keysOf(json["relations"][0]),
              (List{"id", "misclosure", "residual", "redundancy", "w", "mde", "holds"}));
    EXPECT_EQ(keysOf(json["frames"][0]),
              (List{"id", "model", "inches_per_pixel", "u_relative", "rms_px", "references"}));
    EXPECT_EQ(keysOf(json["findings"][0]),
              (List{"kind", "severity", "on", "numbers", "text", "settle", "acknowledged"}));
    EXPECT_EQ(keysOf(json["seek_next"][0]),
              (List{"dimension", "by", "assumed_u", "gain", "helps"}));
    EXPECT_EQ(json["covariance"][0], (Json::array({"d1", "d2", 0.5})));
}

TEST(AnalysisJson, PrintsTwelveDigitsAndNullForWhatIsAbsent) {
    const auto analysis = oneOfEach();
    const auto text = evidence::exchange::analysisJson(analysis);
    EXPECT_NE(text.find("0.333333333333,"), std::string::npos) << text;
    const auto json = Json::parse(text);
    EXPECT_TRUE(json["dimensions"][0]["u"].is_null());
    EXPECT_TRUE(json["network"]["p"].is_null());
    EXPECT_EQ(json["dimensions"][0]["grade"], "-");
}

TEST(Kinds, AreThoseOfTheContractOnceEach) {
    std::set<std::string_view> kinds;
    for (const auto& [kind, severity] : judgement::allKinds()) kinds.insert(kind);
    EXPECT_EQ(kinds.size(), judgement::allKinds().size());
    EXPECT_EQ(judgement::usualSeverity("conflict"), judgement::Severity::High);
    EXPECT_EQ(judgement::usualSeverity("single-origin"), judgement::Severity::Low);
}

TEST(Analyse, SortsByCodeNotByEntry) {
    RegisterBuilder b;
    b.dimension("d12", "Late");
    b.dimension("d2", "Early");
    const auto analysis = b.analyse();
    EXPECT_EQ(analysis.dimensions.at(0).code, "D2");
    EXPECT_EQ(analysis.dimensions.at(1).code, "D12");
}

TEST(Analyse, AnswersInTheUnitOfTheDimension) {
    RegisterBuilder b;
    b.dimension("d1", "Plate").unit = "mm";
    b.source("s1", "Sheet");
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("2 in"), 0.1);
    const auto analysis = b.analyse({.covariance = {"D1"}, .surroundings = {}});
    EXPECT_EQ(sizeIn(analysis, "d1").unit, "mm");
    EXPECT_NEAR(*sizeIn(analysis, "d1").value, 50.8, 1e-9);
    EXPECT_NEAR(*sizeIn(analysis, "d1").u, 2.54, 1e-9);
    ASSERT_EQ(analysis.covariance.size(), 1U);
    EXPECT_NEAR(analysis.covariance[0].value, 2.54 * 2.54, 1e-9);
}

TEST(Analyse, RefusesACovarianceOfAnUnknownDimension) {
    const RegisterBuilder b;
    const auto analysis = judgement::analyse(b.reg, {.covariance = {"D9"}, .surroundings = {}});
    ASSERT_FALSE(analysis);
    EXPECT_EQ(analysis.error().code, evidence::Code::MissingTarget);
}

}  // namespace

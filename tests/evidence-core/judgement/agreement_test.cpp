#include "evidence-core/exchange/explain_json.h"
#include "evidence-core/judgement/explain.h"
#include "tests/support/register_builder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>

// How well readings agree: shown by `explain`, applied to nothing. The kernels behind it have their
// published checks in tests/checks.

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

RegisterBuilder two(double second) {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.source("s1", "General arrangement").creator = "Corran works";
    b.source("s2", "Inspector's sheet").creator = "H. Vale";
    b.reading("r1", "d1", Basis::Figured, "s1", b.number(38.5), 0.05);
    b.reading("r2", "d1", Basis::Figured, "s2", b.number(second), 0.05);
    return b;
}

// Two values 0.4 apart, u 0.05 each: Q = 0.4²/(2·0.05²) = 32; Mandel–Paule: 0.4²/2 = u² + τ².
TEST(Agreement, TellsTheBirgeRatioAndTheSpreadBetweenSources) {
    const auto analysis = two(38.9).analyse();
    const auto& size = sizeIn(analysis, "d1");
    ASSERT_TRUE(size.agreement);
    EXPECT_EQ(size.agreement->readings, 2);
    EXPECT_NEAR(size.agreement->chi2, 32, 1e-9);
    EXPECT_NEAR(size.agreement->birge, std::sqrt(32.0), 1e-9);
    EXPECT_NEAR(size.agreement->between, std::sqrt(0.08 - 0.0025), 1e-9);
    EXPECT_NEAR(size.agreement->uInternal, 0.05 / std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(size.agreement->uExternal, 0.2, 1e-9);
    EXPECT_NEAR(size.agreement->median, 38.7, 1e-12);
    // Nothing is widened by it.
    EXPECT_NEAR(*size.u, 0.05 / std::sqrt(2.0), 1e-9);
}

TEST(Agreement, CountsNoCopyAndNeedsTwoOrigins) {
    auto b = two(38.5);
    b.reg.sources[1].descends.push_back({.from = {"s1"}, .as = record::DescentKind::Tracing});
    EXPECT_FALSE(sizeIn(b.analyse(), "d1").agreement);
}

TEST(Agreement, IsPrintedByExplain) {
    const auto b = two(38.9);
    const auto analysis = b.analyse();
    const auto text = judgement::explainText({"d1"}, b.reg, analysis);
    EXPECT_NE(text.find("Birge ratio 5.66"), std::string::npos) << text;
    EXPECT_NE(text.find("nothing is widened"), std::string::npos) << text;
    const auto json =
        nlohmann::json::parse(evidence::exchange::explainJson({"d1"}, b.reg, analysis));
    EXPECT_NEAR(json["agreement"]["birge"].get<double>(), std::sqrt(32.0), 1e-9);
    EXPECT_TRUE(json["repeats"].is_null());
}

// Ten degrees of freedom, the bare u 0.05: t(0.95, 10) = 2.2281 (NIST TN 1297, Table B.1).
TEST(Repeats, AreJudgedByStudentsT) {
    RegisterBuilder b;
    b.dimension("d1", "Hub bore");
    b.source("s1", "Hub", SourceKind::Part);
    auto& reading = b.reading("r1", "d1", Basis::Gauged, "s1", b.number(2.75), 0.05);
    reading.feature = record::Feature::Original;
    EXPECT_FALSE(sizeIn(b.analyse(), "d1").repeats);
    reading.dof = 10;
    const auto analysis = b.analyse();
    const auto& size = sizeIn(analysis, "d1");
    ASSERT_TRUE(size.repeats);
    EXPECT_NEAR(size.repeats->degrees, 10, 1e-9);
    EXPECT_NEAR(size.repeats->halfWidth, 2.2281 * 0.05, 1e-5);
    // The network takes the t distribution's standard deviation (JCGM 101:2008, 6.4.9).
    EXPECT_NEAR(*size.u, 0.05 * std::sqrt(10.0 / 8), 1e-9);
}

}  // namespace

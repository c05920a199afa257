#include "app/session/evidence_now.h"

#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using app::session::evidenceNow;
using app::session::evidenceToKeep;
using app::session::Snapshot;
using evidence::record::Basis;
using testsupport::RegisterBuilder;

class EvidenceNow : public ::testing::Test {
  protected:
    void SetUp() override {
        auto& rise = m_builder.dimension("d1", "Hoop 3, rise");
        rise.tolerance = 0.25;
        m_builder.source("s1", "General arrangement");
        m_builder.reading("r1", "d1", Basis::Figured, "s1", std::string("15 1/4 in"), 0.02);
    }
    RegisterBuilder m_builder;
};

TEST_F(EvidenceNow, TellsValueGradeAndReadings) {
    const auto now = evidenceNow({"d1"}, m_builder.reg, m_builder.analyse());
    EXPECT_EQ(now.name, "Hoop 3, rise (D1)");
    EXPECT_EQ(now.size, "1′-3¼″ ± 0.039 in");
    EXPECT_EQ(now.grade, evidence::record::Grade::Figured);
    EXPECT_FALSE(now.gradeWhy.empty());
    ASSERT_EQ(now.readings.size(), 1U);
    EXPECT_EQ(now.readings[0].words, "15 1/4 in figured on General arrangement (S1)");
    EXPECT_EQ(now.readings[0].share, "100 %");
    ASSERT_EQ(now.restsOn.size(), 1U);
    EXPECT_EQ(now.restsOn[0].words, "General arrangement (S1)");
}

TEST_F(EvidenceNow, BuildValueIsAShopFractionThatCanBeTyped) {
    const auto now = evidenceNow({"d1"}, m_builder.reg, m_builder.analyse());
    EXPECT_EQ(now.buildValue, "1'-3 1/4\"");
    EXPECT_EQ(now.wantedTolerance, "1/4\"");
}

TEST_F(EvidenceNow, StateIsThatOfTheAnalysis) {
    const auto analysis = m_builder.analyse();
    const auto& result = testsupport::sizeIn(analysis, "d1");
    const auto state = evidenceNow({"d1"}, m_builder.reg, analysis).state;
    ASSERT_TRUE(state);
    EXPECT_EQ(state->value, result.value);
    EXPECT_EQ(state->u, result.u);
    EXPECT_EQ(state->grade, result.grade);
    EXPECT_EQ(state->digest, result.digest);
}

TEST_F(EvidenceNow, ParticularHasItsWordsForABuildValue) {
    m_builder.particular("q1", "Panel timber");
    m_builder.reading("r9", "q1", Basis::Stated, "s1", std::string("oak"));
    const auto now = evidenceNow({"q1"}, m_builder.reg, m_builder.analyse());
    EXPECT_EQ(now.size, "oak");
    EXPECT_EQ(now.buildValue, "oak");
    EXPECT_EQ(now.wantedTolerance, "");
    ASSERT_TRUE(now.state);
    EXPECT_FALSE(now.state->value);
    EXPECT_FALSE(now.state->digest->empty());
}

TEST_F(EvidenceNow, NewestRulingIsTheOneInForce) {
    m_builder.ruling("k1", "d1", std::string("15 1/2 in"), "2026-05-01T10:00:00Z");
    m_builder.ruling("k2", "d1", std::string("15 3/8 in"), "2026-06-01T10:00:00Z");
    EXPECT_EQ(evidenceNow({"d1"}, m_builder.reg, m_builder.analyse()).ruled,
              "15 3/8 in: the evidence bears it");
}

TEST_F(EvidenceNow, SizeWithoutEvidenceHasNoBuildValue) {
    m_builder.dimension("d2", "Brake wheel");
    const auto now = evidenceNow({"d2"}, m_builder.reg, m_builder.analyse());
    EXPECT_EQ(now.size, "not known");
    EXPECT_EQ(now.buildValue, "");
    EXPECT_THAT(now.findings, ::testing::Not(::testing::IsEmpty()));
}

TEST_F(EvidenceNow, IsKeptOnlyWhereTheAnalysisIsOfTheRegisterAsItIs) {
    Snapshot now;
    now.version = 7;
    now.reg = m_builder.reg;
    Snapshot before = now;
    before.version = 6;
    const auto analysis = m_builder.analyse();
    EXPECT_TRUE(evidenceToKeep({"d1"}, now, &now, analysis));
    EXPECT_EQ(evidenceToKeep({"d1"}, now, &before, analysis).error().code, evidence::Code::Stale);
    EXPECT_EQ(evidenceToKeep({"d1"}, now, nullptr, {}).error().code, evidence::Code::Stale);
}

}  // namespace

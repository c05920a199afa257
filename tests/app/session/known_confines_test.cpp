#include "app/session/known_confines.h"

#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using app::session::knownConfines;
using app::session::nameStem;
using app::session::RelationSays;
using evidence::record::Basis;
using testsupport::RegisterBuilder;

/// A hoop of which nothing is known, between a deck and a sill, with a known sister.
class KnownConfines : public ::testing::Test {
  protected:
    void SetUp() override {
        auto& hoop = m_builder.dimension("d1", "Hoop 3, rise");
        hoop.component = "Body/Roof/Hoop 3";
        m_builder.dimension("d2", "Deck height");
        m_builder.dimension("d3", "Sill height");
        auto& sister = m_builder.dimension("d4", "Hoop 4, rise");
        sister.component = "Body/Roof/Hoop 4";
        auto& neighbour = m_builder.dimension("d5", "Hoop 3, width");
        neighbour.component = "Body/Roof/Hoop 3";
        m_builder.source("s1", "General arrangement");
        m_builder.reading("r2", "d2", Basis::Figured, "s1", std::string("40 in"), 0.1);
        m_builder.reading("r3", "d3", Basis::Figured, "s1", std::string("10 in"), 0.1);
        m_builder.reading("r4", "d4", Basis::Figured, "s1", std::string("14 in"), 0.1);
    }

    [[nodiscard]] app::session::KnownConfines known() const {
        return knownConfines({"d1"}, m_builder.reg, m_builder.analyse());
    }

    RegisterBuilder m_builder;
};

TEST_F(KnownConfines, SizeWithoutEvidenceIsNotKnown) {
    EXPECT_EQ(known().name, "Hoop 3, rise (D1)");
    EXPECT_EQ(known().size, "not known");
    EXPECT_EQ(known().unit, "in");
}

TEST_F(KnownConfines, InequalityLeavesAtMostWhatTheOthersLeave) {
    m_builder.relation("l1", "D1 + D3 <= D2", Basis::Geometry);
    const auto relations = known().relations;
    ASSERT_EQ(relations.size(), 1U);
    EXPECT_EQ(relations[0].words, "Hoop 3, rise + Sill height ≤ Deck height");
    EXPECT_EQ(relations[0].says, RelationSays::AtMost);
    EXPECT_EQ(relations[0].size.substr(0, relations[0].size.find(' ')), "2′-6″");
}

TEST_F(KnownConfines, TermOnTheOtherSideNeedsAtLeast) {
    m_builder.relation("l1", "D2 <= D1 + D3", Basis::Geometry);
    EXPECT_EQ(known().relations.at(0).says, RelationSays::AtLeast);
}

TEST_F(KnownConfines, DoubtsOfTheOthersAddUp) {
    // u 0.1 each: 0.196 and 0.196 make 0.39 to either side.
    m_builder.relation("l1", "D1 + D3 <= D2", Basis::Geometry);
    EXPECT_THAT(known().relations.at(0).size, ::testing::HasSubstr("± 0.39 in"));
}

TEST_F(KnownConfines, RelationWithAnotherUnknownSaysNothing) {
    m_builder.relation("l1", "D1 = D5 / 2", Basis::TradeRule, 0.1);
    EXPECT_EQ(known().relations.at(0).says, RelationSays::Nothing);
    EXPECT_EQ(known().relations.at(0).size, "");
}

TEST_F(KnownConfines, WhatTheRelationsJoinAreNeighboursThenTheComponent) {
    m_builder.relation("l1", "D1 + D3 <= D2", Basis::Geometry);
    std::vector<std::string> names;
    for (const auto& neighbour : known().neighbours) names.push_back(neighbour.name);
    EXPECT_THAT(names, ::testing::ElementsAre("Sill height", "Deck height", "Hoop 3, width"));
}

TEST_F(KnownConfines, SameNameButForNumbersIsAnalogous) {
    const auto analogous = known().analogous;
    ASSERT_EQ(analogous.size(), 1U);
    EXPECT_EQ(analogous[0].name, "Hoop 4, rise");
    EXPECT_EQ(analogous[0].component, "Body/Roof/Hoop 4");
    EXPECT_EQ(analogous[0].size, "1′-2″ ± 0.20 in");
}

TEST_F(KnownConfines, LimitsAreTold) {
    m_builder.limit("r9", "d1", 12.0, std::nullopt, "s1");
    const auto limits = known().limits;
    ASSERT_EQ(limits.size(), 1U);
    EXPECT_THAT(limits[0].words, ::testing::HasSubstr("no less than 12 in"));
    EXPECT_EQ(limits[0].reason, "must clear its neighbour");
}

TEST_F(KnownConfines, WhatIsSetAsideConfinesNothing) {
    m_builder.relation("l1", "D1 + D3 <= D2", Basis::Geometry).setAside = "wrong deck";
    m_builder.limit("r9", "d1", 12.0, std::nullopt, "s1").setAside = "misread";
    m_builder.reg.dimensions[3].setAside = "no such hoop";
    const auto told = known();
    EXPECT_TRUE(told.relations.empty());
    EXPECT_TRUE(told.limits.empty());
    EXPECT_TRUE(told.analogous.empty());
}

TEST_F(KnownConfines, ParticularIsConfinedByItsLikeAndItsComponent) {
    auto& timber = m_builder.particular("q1", "Hoop 3, timber");
    timber.component = "Body/Roof/Hoop 3";
    m_builder.particular("q2", "Hoop 4, timber");
    auto& bolts = m_builder.particular("q3", "Fixing of the hoop");
    bolts.component = "Body/Roof/Hoop 3";
    m_builder.reading("r8", "q2", Basis::Stated, "s1", std::string("ash"));
    const auto told = knownConfines({"q1"}, m_builder.reg, m_builder.analyse());
    EXPECT_TRUE(told.inWords);
    EXPECT_EQ(told.size, "not known");
    ASSERT_EQ(told.analogous.size(), 1U);
    EXPECT_EQ(told.analogous[0].size, "ash");
    ASSERT_EQ(told.neighbours.size(), 1U);
    EXPECT_EQ(told.neighbours[0].name, "Fixing of the hoop");
}

TEST(NameStem, LeavesNumbersAndPunctuationOut) {
    EXPECT_EQ(nameStem("Hoop 3, depth at crown"), "hoop depth at crown");
    EXPECT_EQ(nameStem("Bay 10, hoop 10 to hoop 11"), "bay hoop to hoop");
    EXPECT_EQ(nameStem("Höhe 2"), "höhe");
}

}  // namespace

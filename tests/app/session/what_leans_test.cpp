#include "app/session/what_leans.h"

#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using app::session::sizesLeaningOn;
using evidence::record::Authority;
using evidence::record::Basis;
using evidence::record::SourceKind;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testsupport::RegisterBuilder;

class WhatLeans : public ::testing::Test {
  protected:
    void SetUp() override {
        m_builder.pictured("s1", "Broadside", SourceKind::Photograph, Authority::Eyewitness);
        m_builder.source("s2", "Gauge of the line");
        m_builder.dimension("d1", "Sill");
        m_builder.dimension("d2", "Post");
        m_builder.dimension("d3", "Deck");
        m_builder.segment("m1", "s1", 100);
        m_builder.segment("m2", "s1", 200);
        auto& scale = m_builder.uniform("g1", "s1");
        m_builder.reference(scale, "m1", 36, 0.1, "s2", Basis::Stated);
        m_builder.scaled("r1", "d1", "g1", "m2");
        m_builder.reading("r2", "d2", Basis::Figured, "s2", std::string("4 in"));
        m_builder.relation("l1", "D3 = D1 + D2", Basis::Geometry);
    }
    RegisterBuilder m_builder;
};

TEST_F(WhatLeans, ReadingsLeanOnTheirMarkScaleAndSource) {
    for (const char* id : {"r1", "m2", "g1", "s1"})
        EXPECT_THAT(sizesLeaningOn({id}, m_builder.reg), ElementsAre("Sill")) << id;
}

TEST_F(WhatLeans, ScaleLeansOnTheSourceOfItsKnownLength) {
    EXPECT_THAT(sizesLeaningOn({"s2"}, m_builder.reg), ElementsAre("Sill", "Post"));
    EXPECT_THAT(sizesLeaningOn({"m1"}, m_builder.reg), ElementsAre("Sill"));
}

TEST_F(WhatLeans, RelationHoldsAllSizesInIt) {
    EXPECT_THAT(sizesLeaningOn({"l1"}, m_builder.reg), ElementsAre("Sill", "Post", "Deck"));
}

TEST_F(WhatLeans, SharedErrorTouchesWhatItActsOn) {
    evidence::record::SharedError error;
    error.id = {"e1"};
    error.on = {{{"r2"}, {}}};
    m_builder.reg.sharedErrors.push_back(error);
    EXPECT_THAT(sizesLeaningOn({"e1"}, m_builder.reg), ElementsAre("Post"));
}

TEST_F(WhatLeans, WhatIsSetAsideAlreadyLosesNothing) {
    m_builder.reg.readings[0].setAside = "blurred";
    EXPECT_THAT(sizesLeaningOn({"g1"}, m_builder.reg), IsEmpty());
}

}  // namespace

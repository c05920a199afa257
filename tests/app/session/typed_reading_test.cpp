#include "app/session/typed_reading.h"

#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace app::session;
using evidence::Code;
using evidence::record::Basis;
using evidence::record::Feature;
using evidence::record::SourceId;
using testsupport::RegisterBuilder;

class TypedReadingTest : public ::testing::Test {
  protected:
    void SetUp() override {
        m_builder.dimension("d1", "Sill depth");
        m_builder.particular("q1", "Panel timber");
        m_builder.source("s1", "General arrangement");
        m_typed.of = {"d1"};
        m_typed.source = SourceId{"s1"};
    }
    RegisterBuilder m_builder;
    TypedReading m_typed;
};

TEST_F(TypedReadingTest, KeepsTheTextsAsTyped) {
    m_typed.value = "3'-7 5/16\"";
    m_typed.excerpt = "sill 3'-7 5/16\" o.a.";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_TRUE(reading);
    EXPECT_EQ(std::get<std::string>(*reading->value), "3'-7 5/16\"");
    EXPECT_EQ(reading->excerpt, "sill 3'-7 5/16\" o.a.");
    EXPECT_FALSE(reading->reason);
    EXPECT_FALSE(reading->u);
}

TEST_F(TypedReadingTest, UncertaintyGoesWhereItIsMeantInTheUnitOfTheValue) {
    m_typed.value = "110 mm";
    m_typed.spread = "1/2 in";
    m_typed.spreadGiven = SpreadGiven::HalfWidth;
    EXPECT_DOUBLE_EQ(*readingOf(m_typed, m_builder.reg)->halfWidth, 12.7);
    m_typed.spreadGiven = SpreadGiven::RoundedTo;
    EXPECT_DOUBLE_EQ(*readingOf(m_typed, m_builder.reg)->roundedTo, 12.7);
    m_typed.spreadGiven = SpreadGiven::Standard;
    EXPECT_DOUBLE_EQ(*readingOf(m_typed, m_builder.reg)->u, 12.7);
    m_typed.value = "4 in";
    EXPECT_DOUBLE_EQ(*readingOf(m_typed, m_builder.reg)->u, 0.5);
}

TEST_F(TypedReadingTest, PromisedUncertaintyMustBeWritten) {
    m_typed.value = "4 in";
    m_typed.spreadGiven = SpreadGiven::Standard;
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_FALSE(reading);
    EXPECT_EQ(reading.error().code, Code::MissingKey);
    EXPECT_EQ(reading.error().place, "spread");
}

TEST_F(TypedReadingTest, LimitHasBoundsInsteadOfAValue) {
    m_typed.basis = Basis::Limit;
    m_typed.value = "left from before";
    m_typed.low = "3 in";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_TRUE(reading);
    EXPECT_FALSE(reading->value);
    EXPECT_EQ(std::get<std::string>(*reading->low), "3 in");
    EXPECT_FALSE(reading->high);
}

TEST_F(TypedReadingTest, AlteredPartGivesLimitsOnly) {
    m_typed.basis = Basis::Gauged;
    m_typed.feature = Feature::Original;
    EXPECT_TRUE(fieldsOf(m_typed, m_builder.reg).value);
    EXPECT_TRUE(fieldsOf(m_typed, m_builder.reg).instrument);
    m_typed.feature = Feature::Altered;
    EXPECT_FALSE(fieldsOf(m_typed, m_builder.reg).value);
    EXPECT_TRUE(fieldsOf(m_typed, m_builder.reg).limits);
}

TEST_F(TypedReadingTest, ParticularHasAValueInWordsAndNoUncertainty) {
    m_typed.of = {"q1"};
    const auto fields = fieldsOf(m_typed, m_builder.reg);
    EXPECT_TRUE(fields.value);
    EXPECT_FALSE(fields.spread);
    EXPECT_FALSE(fields.limits);
}

TEST_F(TypedReadingTest, DefaultOfAFigureFollowsTheFinestStepOfItsSheet) {
    // The sheet has sixteenths: 3 1/2 on it is ± 1/32, half of the 95 % interval 0.95/32.
    m_builder.dimension("d2", "Post");
    m_builder.reading("r2", "d2", Basis::Figured, "s1", std::string("2 5/16"));
    m_typed.value = "3 1/2";
    const auto worth = worthOf(*readingOf(m_typed, m_builder.reg), m_builder.reg);
    EXPECT_EQ(worth.takenAs, "0′-3½″ ± 0.030 in");
    EXPECT_TRUE(worth.byDefault);
}

TEST_F(TypedReadingTest, GivenUncertaintyIsNoDefault) {
    m_typed.value = "3 1/2";
    m_typed.spread = "0.1";
    m_typed.spreadGiven = SpreadGiven::Standard;
    const auto worth = worthOf(*readingOf(m_typed, m_builder.reg), m_builder.reg);
    EXPECT_EQ(worth.takenAs, "0′-3½″ ± 0.20 in");
    EXPECT_FALSE(worth.byDefault);
}

TEST_F(TypedReadingTest, ValueThatCannotBeReadIsWorthNothingYet) {
    m_typed.value = "about as long";
    EXPECT_EQ(worthOf(*readingOf(m_typed, m_builder.reg), m_builder.reg).takenAs, "");
}

TEST_F(TypedReadingTest, CorrectionOfAnUnknownRowIsRefused) {
    m_typed.value = "4 in";
    m_typed.correction = "unobtainium";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_FALSE(reading);
    EXPECT_EQ(reading.error().code, Code::MissingTarget);
    EXPECT_EQ(reading.error().place, "correction");
}

TEST_F(TypedReadingTest, AmountOfACorrectionIsInTheUnitOfTheValue) {
    m_typed.value = "100 mm";
    m_typed.correction = "pa-paint";
    m_typed.circumstances = "2 faces";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_TRUE(reading);
    ASSERT_EQ(reading->corrections.size(), 1U);
    EXPECT_NEAR(*reading->corrections[0].add, -0.254, 1e-12);
}

TEST_F(TypedReadingTest, OwnUncertaintyOutranksThatOfTheTable) {
    m_typed.value = "16 SWG";
    m_typed.spreadGiven = SpreadGiven::HalfWidth;
    m_typed.spread = "0.001";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_TRUE(reading);
    EXPECT_EQ(reading->tableRow, "swg-16");
    EXPECT_FALSE(reading->u);
    EXPECT_EQ(reading->halfWidth, 0.001);
}

TEST_F(TypedReadingTest, ParticularsTakeTradeWordsAsTheyStand) {
    m_typed.of = {"q1"};
    m_typed.value = "16 gauge";
    const auto reading = readingOf(m_typed, m_builder.reg);
    ASSERT_TRUE(reading);
    EXPECT_EQ(std::get<std::string>(*reading->value), "16 gauge");
    EXPECT_FALSE(reading->tableRow);
}

}  // namespace

#include "app/session/components.h"
#include "app/session/guess_worth.h"
#include "app/session/print_of_page.h"
#include "app/session/tolerance_typed.h"
#include "app/session/typed_amount.h"
#include "app/session/typed_dimension.h"
#include "tests/support/register_builder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace app::session;
using evidence::Code;
using evidence::quantity::Unit;
using evidence::record::DimensionQuantity;
using testsupport::RegisterBuilder;

TEST(TypedAmount, BlankIsNothing) {
    EXPECT_EQ(typedAmount("  ", Unit::Inch, "u").value(), std::nullopt);
}

TEST(TypedAmount, BareNumberIsInTheUnitAndAWrittenUnitIsConverted) {
    EXPECT_DOUBLE_EQ(**typedAmount("1/16", Unit::Inch, "u"), 0.0625);
    EXPECT_DOUBLE_EQ(**typedAmount("0.5", Unit::Millimetre, "u"), 0.5);
    EXPECT_DOUBLE_EQ(**typedAmount("1/2 in", Unit::Millimetre, "u"), 12.7);
}

TEST(TypedAmount, WhatCannotBeReadOrIsBelowNothingIsRefusedAtItsPlace) {
    const auto words = typedAmount("a bit", Unit::Inch, "tolerance");
    ASSERT_FALSE(words);
    EXPECT_EQ(words.error().place, "tolerance");
    EXPECT_EQ(typedAmount("-1", Unit::Inch, "u").error().code, Code::BadValue);
}

TEST(ToleranceTyped, IsInTheUnitOfItsDimension) {
    RegisterBuilder builder;
    builder.dimension("d1", "Sill").unit = "mm";
    builder.particular("q1", "Timber");
    EXPECT_DOUBLE_EQ(**toleranceTyped("1/2 in", {"d1"}, builder.reg), 12.7);
    EXPECT_EQ(toleranceTyped("", {"q1"}, builder.reg).value(), std::nullopt);
    EXPECT_EQ(toleranceTyped("1", {"q1"}, builder.reg).error().code, Code::WrongUse);
}

TEST(GuessWorth, IsTheMiddleWithHalfTheIntervalOfARectangle) {
    RegisterBuilder builder;
    builder.dimension("d1", "Tank");
    const auto worth = guessWorth({"d1"}, "3 in", "4 in", builder.reg);
    EXPECT_EQ(worth.takenAs, "0′-3½″ ± 0.48 in");  // 0.95 × 1/2
    EXPECT_EQ(worth.floor, "");
}

TEST(GuessWorth, TellsTheFloorWhereTheBoundsLieCloser) {
    RegisterBuilder builder;
    builder.dimension("d1", "Tank");
    // 3 % of 40 in to either side.
    const auto worth = guessWorth({"d1"}, "39 3/4", "40 1/4", builder.reg);
    EXPECT_EQ(worth.floor, "1.2 in");
    EXPECT_THAT(worth.takenAs, ::testing::HasSubstr("± 1.1 in"));
}

TEST(GuessWorth, SaysNothingUntilBothBoundsStandInOrder) {
    RegisterBuilder builder;
    builder.dimension("d1", "Tank");
    EXPECT_EQ(guessWorth({"d1"}, "3", "", builder.reg).takenAs, "");
    EXPECT_EQ(guessWorth({"d1"}, "4", "3", builder.reg).takenAs, "");
    EXPECT_EQ(guessWorth({"nothing"}, "3", "4", builder.reg).takenAs, "");
}

TEST(TypedDimension, BecomesADraftWithItsToleranceInItsUnit) {
    TypedDimension typed;
    typed.name = "Sill depth";
    typed.component = "Body";
    typed.unit = "mm";
    typed.tolerance = "1/8 in";
    typed.critical = true;
    const auto draft = draftOf(typed);
    ASSERT_TRUE(draft) << draft.error().help;
    EXPECT_EQ(draft->unit, "mm");
    EXPECT_DOUBLE_EQ(*draft->tolerance, 3.175);
    EXPECT_EQ(draft->component, "Body");
    EXPECT_TRUE(draft->critical);
}

TEST(TypedDimension, UnitOfAnotherQuantityIsRefused) {
    TypedDimension typed;
    typed.quantity = DimensionQuantity::Mass;
    typed.unit = "mm";
    EXPECT_EQ(draftOf(typed).error().place, "unit");
}

TEST(TypedDimension, CanonicalUnitIsOfferedFirst) {
    EXPECT_EQ(unitsFor(DimensionQuantity::Radius).front(), "in");
    EXPECT_THAT(unitsFor(DimensionQuantity::Angle),
                ::testing::ElementsAre("rad", "deg", "arcmin", "arcsec"));
}

TEST(Components, HoldWhatTheyArePartOf) {
    RegisterBuilder builder;
    builder.dimension("d1", "Rise").component = "Body/Roof/Hoop 3";
    builder.particular("q1", "Timber").component = "Body";
    EXPECT_THAT(componentsOf(builder.reg),
                ::testing::ElementsAre("Body", "Body/Roof", "Body/Roof/Hoop 3"));
}

TEST(PrintTyped, ReadsResolutionScaleAndPerCent) {
    const auto print = printTyped("400", "1:24", "0.5");
    ASSERT_TRUE(print) << print.error().help;
    EXPECT_DOUBLE_EQ(*print->dpi, 400);
    EXPECT_DOUBLE_EQ(*print->drawnScale, 24);
    EXPECT_DOUBLE_EQ(*print->uRelative, 0.005);
    EXPECT_DOUBLE_EQ(*printTyped("400", "2:3", "")->drawnScale, 1.5);
    EXPECT_DOUBLE_EQ(*printTyped("400", "16", "")->drawnScale, 16);
}

TEST(PrintTyped, BlankIsLeftToThePlanAndNonsenseIsRefusedAtItsField) {
    EXPECT_EQ(*printTyped("", "", ""), evidence::record::Print{});
    EXPECT_EQ(printTyped("fine", "1:24", "").error().place, "print/dpi");
    EXPECT_EQ(printTyped("400", "1:", "").error().place, "print/drawn_scale");
    EXPECT_EQ(printTyped("400", "1:24", "0").error().place, "print/u_relative");
}

TEST(PageName, NamesThePageOnlyWhereThereAreSeveral) {
    RegisterBuilder builder;
    auto& source =
        builder.pictured("s1", "General arrangement", evidence::record::SourceKind::Drawing,
                         evidence::record::Authority::Maker);
    EXPECT_EQ(pageName({{"fs1"}, 1}, builder.reg), "General arrangement (S1)");
    source.files[0].pages = 3;
    EXPECT_EQ(pageName({{"fs1"}, 2}, builder.reg), "General arrangement (S1), page 2");
}

}  // namespace

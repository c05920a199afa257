// Rows of the tables offered, chosen and made into parts of records.
#include "app/session/from_table.h"

#include "app/session/table_offer.h"
#include "evidence-core/network/worth.h"
#include "tests/support/register_builder.h"

#include <algorithm>

namespace {

using namespace app::session;
using evidence::Code;
using evidence::record::TableRowKind;
using evidence::trade::Tables;
namespace record = evidence::record;
namespace quantity = evidence::quantity;

const Tables& tables() {
    return Tables::builtIn();
}

TEST(TableOffer, RowsThatFitTheSourcesDateGoFirstAndTheOthersSayWhy) {
    testsupport::RegisterBuilder builder;
    builder.source("s1", "Works photograph").date = "1935";
    const auto found = offers(tables(), builder.reg, "2 in lumber", {TableRowKind::Length},
                              record::SourceId{"s1"});
    ASSERT_GE(found.size(), 4U);
    EXPECT_EQ(found.front().row, "lb-2-1924");
    EXPECT_TRUE(found.front().unfit.empty());
    EXPECT_EQ(found.front().value, "1.625 in, u 0.04619");
    const auto late = std::ranges::find(found, "lb-2-1970", &TableOffer::row);
    ASSERT_NE(late, found.end());
    EXPECT_EQ(late->unfit, "of another time (1970/..)");
    EXPECT_EQ(candidateWords(*late),
              "1.5 in, u 0.03464; 2 in lumber, dressed dry 1 1/2: thickness; of another time "
              "(1970/..)");
}

TEST(TableOffer, KindsNarrowAndMemoryIsSaid) {
    const testsupport::RegisterBuilder builder;
    const auto densities = offers(tables(), builder.reg, "ash", {TableRowKind::Density});
    ASSERT_EQ(densities.size(), 1U);
    EXPECT_NE(densities[0].source.find("from memory"), std::string::npos);
    for (const auto& each : offers(tables(), builder.reg, "ash", correctingKinds()))
        EXPECT_NE(each.row, "dn-ash-white");
}

TEST(TableOffer, PickedWordsFindTheirRow) {
    const auto* row = tables().find("rg-standard");
    EXPECT_EQ(rowPicked(tables(), pickedWords(*row)), row);
    EXPECT_EQ(rowPicked(tables(), " rg-standard "), row);
    EXPECT_EQ(rowPicked(tables(), "Some gauge (rg-standard)"), nullptr);
    EXPECT_EQ(rowPicked(tables(), "56 1/2"), nullptr);
    EXPECT_EQ(rowPicked(tables(), ""), nullptr);
}

TEST(SizeAsked, AmbiguousWordsAreAQuestionWithCandidates) {
    const testsupport::RegisterBuilder builder;
    const auto asked = sizeAsked(tables(), builder.reg, "16 gauge", std::nullopt);
    EXPECT_EQ(asked.offers.size(), 6U);
    EXPECT_FALSE(asked.question.empty());
    EXPECT_FALSE(asked.row);
}

TEST(SizeAsked, NamedSystemLeavesNothingOpen) {
    const testsupport::RegisterBuilder builder;
    EXPECT_EQ(sizeAsked(tables(), builder.reg, "16 SWG", std::nullopt).row, "swg-16");
    // Pitch or diameter is still to be said.
    const auto thread = sizeAsked(tables(), builder.reg, "3/8 Whit", std::nullopt);
    EXPECT_EQ(thread.offers.size(), 2U);
    EXPECT_FALSE(thread.row);
    EXPECT_FALSE(thread.question.empty());
    EXPECT_TRUE(sizeAsked(tables(), builder.reg, "56 1/2", std::nullopt).offers.empty());
}

TEST(LengthFromTable, RemembersItsRowAndReadsWithoutTheTable) {
    const auto length = lengthFromTable(*tables().find("swg-16"), "16 gauge");
    ASSERT_TRUE(length);
    EXPECT_EQ(std::get<record::Number>(*length->value).value, 0.064);
    EXPECT_EQ(length->unit, "in");
    EXPECT_EQ(length->u, 0.00111);
    EXPECT_EQ(length->tableRow, "swg-16");
    EXPECT_EQ(length->basis, record::Basis::TradeRule);
    for (const auto* words : {"\"16 gauge\"", "swg-16", "Imperial Standard Wire Gauge", "1883"})
        EXPECT_NE(length->reason->find(words), std::string::npos) << words;
    EXPECT_TRUE(evidence::network::checkLength(*length, ""));
    EXPECT_EQ(lengthFromTable(*tables().find("dn-steel"), "").error().code, Code::WrongUse);
}

TEST(CorrectionFromTable, AmountsAreInTheUnitOfTheValue) {
    const auto given = circumstancesTyped(TableRowKind::Coating, "2 faces");
    ASSERT_TRUE(given);
    const auto* paint = tables().find("pa-paint");
    EXPECT_NEAR(*correctionFromTable(*paint, *given, quantity::Unit::Inch)->add, -0.010, 1e-12);
    const auto metric = correctionFromTable(*paint, *given, quantity::Unit::Millimetre);
    EXPECT_NEAR(*metric->add, -0.254, 1e-12);
    EXPECT_NEAR(*metric->u, 25.4 * *correctionFromTable(*paint, *given, quantity::Unit::Inch)->u,
                1e-12);
    EXPECT_EQ(metric->tableRow, "pa-paint");
    EXPECT_EQ(metric->basis, record::Basis::TradeRule);
}

TEST(Circumstances, AreReadAsTheRowNeedsThem) {
    const auto wood = circumstancesTyped(TableRowKind::WoodMovement, "7 to 12 ± 2");
    ASSERT_TRUE(wood);
    EXPECT_EQ(wood->moistureNow->value, 7);
    EXPECT_EQ(wood->moistureNow->u, 1);
    EXPECT_EQ(wood->moistureThen->value, 12);
    EXPECT_EQ(wood->moistureThen->u, 2);
    const auto rust = circumstancesTyped(TableRowKind::SurfaceLoss, "80 years, 2 faces");
    ASSERT_TRUE(rust);
    EXPECT_EQ(rust->years->value, 80);
    EXPECT_EQ(rust->faces, 2);
    EXPECT_EQ(circumstancesTyped(TableRowKind::CastingContraction, "the pattern")->inHand,
              evidence::trade::InHand::Pattern);
    EXPECT_EQ(circumstancesTyped(TableRowKind::CastingContraction, "copy")->inHand,
              evidence::trade::InHand::CopyCasting);
    EXPECT_TRUE(circumstancesTyped(TableRowKind::SheetChange, ""));
}

TEST(Circumstances, SayWhatIsWanted) {
    for (const auto kind : correctingKinds()) {
        if (circumstancesWanted(kind).empty()) continue;
        const auto none = circumstancesTyped(kind, "  ");
        ASSERT_FALSE(none);
        EXPECT_EQ(none.error().code, Code::MissingKey);
        EXPECT_EQ(none.error().place, "circumstances");
        EXPECT_EQ(circumstancesTyped(kind, "dry").error().code, Code::BadValue);
    }
}

}  // namespace

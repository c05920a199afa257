#include "app/desk/page/known_thing.h"

#include "app/desk/page/dimension_words.h"

#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using app::desk::page::dimensionMeant;
using app::desk::page::knownLengthOf;
using app::desk::page::KnownThing;
using evidence::Code;

record::Register someRegister() {
    record::Register reg;
    const auto add = [&](const char* id, const char* code, const char* name,
                         const char* component) -> record::Dimension& {
        record::Dimension made;
        made.id = {id};
        made.code = code;
        made.name = name;
        made.component = component;
        reg.dimensions.push_back(made);
        return reg.dimensions.back();
    };
    add("a", "D1", "Hoop width", "Roof");
    add("b", "D2", "Width", "Door");
    add("c", "D3", "Width", "Window");
    add("d", "D4", "Weight", "Car").quantity = record::DimensionQuantity::Mass;
    record::Source drawing;
    drawing.id = {"s1"};
    drawing.kind = record::SourceKind::Drawing;
    reg.sources.push_back(drawing);
    return reg;
}

TEST(KnownThing, LengthKeepsItsTextAndWithoutASourceIsAssumed) {
    const auto length = knownLengthOf(someRegister(), {QStringLiteral("5 ft 3 1/2 in"), {}, {}});
    ASSERT_TRUE(length);
    EXPECT_EQ(std::get<std::string>(*length->value), "5 ft 3 1/2 in");
    EXPECT_EQ(length->unit, "in");
    EXPECT_EQ(length->basis, record::Basis::Assumed);
    EXPECT_FALSE(length->source);
    EXPECT_FALSE(length->halfWidth);
}

TEST(KnownThing, PlusMinusIsHalfTheNinetyFivePercentIntervalInTheValuesUnit) {
    const auto length = knownLengthOf(
        someRegister(), {QStringLiteral("1605 mm"), QStringLiteral("1/8 in"), {"s1"}});
    ASSERT_TRUE(length);
    EXPECT_EQ(length->unit, "mm");
    EXPECT_NEAR(length->halfWidth.value_or(0), 3.175, 1e-12);
    EXPECT_EQ(length->shape, record::Shape::Normal95);
    EXPECT_EQ(length->source, record::SourceId{"s1"});
    EXPECT_EQ(length->basis, record::Basis::Figured);
}

TEST(KnownThing, BareNumberIsInTheRegistersUnit) {
    auto reg = someRegister();
    reg.archive.displayUnit = record::DisplayUnit::Millimetre;
    EXPECT_EQ(knownLengthOf(reg, {QStringLiteral("1605"), {}, {}})->unit, "mm");
}

TEST(KnownThing, DimensionIsMeantByCodeByWordsAndByAUniqueName) {
    const auto reg = someRegister();
    for (const char* typed : {"D1", "d1", "D1 Hoop width", "hoop width"})
        EXPECT_EQ(knownLengthOf(reg, {QString::fromLatin1(typed), {}, {}})->dimension,
                  record::DimensionId{"a"})
            << typed;
    EXPECT_EQ(dimensionMeant(reg, QStringLiteral("Width")), nullptr);
    EXPECT_EQ(dimensionMeant(reg, QStringLiteral("Width"), QStringLiteral("window"))->id.text, "c");
    EXPECT_EQ(dimensionMeant(reg, QStringLiteral("Hoop width"), QStringLiteral("Door")), nullptr);
}

TEST(KnownThing, RefusalsSayWhichField) {
    const auto reg = someRegister();
    const auto refused = [&](const char* what, const char* spread) {
        const auto outcome =
            knownLengthOf(reg, {QString::fromLatin1(what), QString::fromLatin1(spread), {}});
        return outcome ? evidence::Refusal{} : outcome.error();
    };
    EXPECT_EQ(refused(" ", "").code, Code::MissingKey);
    EXPECT_EQ(refused("about so long", "").place, "length/value");
    EXPECT_EQ(refused("D4", "").code, Code::BadUnit);
    EXPECT_EQ(refused("63", "nearly").place, "length/half_width");
    EXPECT_EQ(refused("63", "0").place, "length/half_width");
}

TEST(KnownThing, ThingOfTheTablesBringsItsSpreadAndItsReason) {
    const auto length = knownLengthOf(
        someRegister(),
        {QStringLiteral("Standard railway gauge 4 ft 8 1/2 in (rg-standard)"), {}, {}});
    ASSERT_TRUE(length);
    EXPECT_EQ(std::get<record::Number>(*length->value).value, 56.5);
    EXPECT_EQ(length->u, 0.4);
    EXPECT_EQ(length->basis, record::Basis::TradeRule);
    EXPECT_EQ(length->tableRow, "rg-standard");
    EXPECT_TRUE(length->reason->starts_with("Table row rg-standard"));
}

TEST(KnownThing, OwnSpreadAndSourceOutrankTheTable) {
    const auto length = knownLengthOf(
        someRegister(), {QStringLiteral("rg-standard"), QStringLiteral("1/8"), {"s1"}});
    ASSERT_TRUE(length);
    EXPECT_FALSE(length->u);
    EXPECT_EQ(length->halfWidth, 0.125);
    EXPECT_EQ(length->source, record::SourceId{"s1"});
    EXPECT_EQ(length->basis, record::Basis::Figured);
    EXPECT_EQ(length->tableRow, "rg-standard");
}

TEST(KnownThing, AmbiguousTradeWordsAskAndKeepTheWords) {
    const auto asked = knownLengthOf(someRegister(), {QStringLiteral("16 gauge"), {}, {}});
    ASSERT_FALSE(asked);
    EXPECT_EQ(asked.error().code, Code::MissingKey);
    EXPECT_EQ(asked.error().place, "length/table_row");
    EXPECT_NE(asked.error().help.find("which system"), std::string::npos);
    const auto chosen =
        knownLengthOf(someRegister(), {QStringLiteral("16 gauge"), {}, {}, "ussg-16"});
    ASSERT_TRUE(chosen);
    EXPECT_EQ(std::get<record::Number>(*chosen->value).value, 0.0625);
    EXPECT_NE(chosen->reason->find("\"16 gauge\" as written"), std::string::npos);
    EXPECT_EQ(knownLengthOf(someRegister(), {QStringLiteral("16 SWG"), {}, {}})->tableRow,
              "swg-16");
}

}  // namespace

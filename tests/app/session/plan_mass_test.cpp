// Mass from volume and material, and the weight relation that sums such masses.
#include "evidence-core/judgement/analyse.h"
#include "evidence-core/trade/tables.h"
#include "tests/app/session/planned_archive.h"

#include <cmath>

namespace planning {
namespace {

using app::session::MassDraft;
using app::session::planMass;

/// Two boards of ash (D11, D12: 4 x 6 x 72 in as product of D4, D5, D6; half a cubic foot as D7)
/// and the car's weight D13, their sum. All sizes are exact to a thousandth.
record::Register twoBoards() {
    auto reg = smallRegister();
    const auto dimension = [&](const std::string& number, record::DimensionQuantity quantity) {
        record::Dimension made;
        made.id = {"d" + number};
        made.code = "D" + number;
        made.name = "size " + number;
        made.quantity = quantity;
        reg.dimensions.push_back(made);
    };
    const auto reading = [&](const std::string& number, double value, double u) {
        record::Reading made;
        made.id = {"r" + number};
        made.of = {"d" + number};
        made.basis = record::Basis::Stated;
        made.source = record::SourceId{"s1"};
        made.value = record::Number{value, ""};
        made.u = u;
        reg.readings.push_back(made);
    };
    for (const auto* number : {"4", "5", "6"}) dimension(number, record::DimensionQuantity::Length);
    dimension("7", record::DimensionQuantity::Volume);
    for (const auto* number : {"11", "12", "13"})
        dimension(number, record::DimensionQuantity::Mass);
    reading("4", 4, 0.001);
    reading("5", 6, 0.001);
    reading("6", 72, 0.001);
    reading("7", 864, 0.001);
    record::Relation sum;
    sum.id = {"sum"};
    sum.formula = "D13 = D11 + D12";
    sum.u = 0;
    sum.basis = record::Basis::Geometry;
    sum.reason = "the weight is that of its parts";
    reg.relations.push_back(sum);
    return reg;
}

record::Register withMass(record::Register reg, const MassDraft& draft) {
    const auto plan = planMass(contextOf(reg), draft);
    EXPECT_TRUE(plan) << (plan ? "" : plan.error().place + ": " + plan.error().help);
    return plan ? record::applied(std::move(reg), *plan) : reg;
}

const judgement::DimensionResult& resultOf(const judgement::Analysis& analysis,
                                           const std::string& id) {
    for (const auto& each : analysis.dimensions)
        if (each.id.text == id) return each;
    ADD_FAILURE() << "no result of " << id;
    static const judgement::DimensionResult kNone;
    return kNone;
}

MassDraft first() {
    return {.of = {"d11"}, .volume = "D4*D5*D6", .tableRow = "dn-ash-white"};
}
MassDraft second() {
    return {.of = {"d12"}, .volume = "D7", .tableRow = "dn-ash-white"};
}

/// Ash weighs 41.9 lb/ft3 (0.60 x 1.12 x 62.4, Wood Handbook), each board within 10 %.
constexpr double kAsh = 41.9;
constexpr double kAshU = 4.19 / 41.9;

TEST(PlanMass, WritesAnExactRelationWithTheDensitysDoubtAndItsRow) {
    const auto reg = twoBoards();
    const auto plan = planMass(contextOf(reg), first());
    const auto relation = theOne<record::Relation>(plan);
    EXPECT_EQ(relation.formula, "D11 = (D4*D5*D6) * 41.9 lb / 1 ft3");
    EXPECT_EQ(relation.u, 0);
    EXPECT_EQ(relation.basis, record::Basis::TradeRule);
    for (const auto* words : {"dn-ash-white", "Wood Handbook", "41.9 lb/ft3", "from memory"})
        EXPECT_NE(relation.reason->find(words), std::string::npos) << words;
    const auto error = theOne<record::SharedError>(plan);
    EXPECT_EQ(error.kind, record::SharedErrorKind::Relative);
    EXPECT_NEAR(error.u, kAshU, 1e-12);
    ASSERT_EQ(error.on.size(), 1U);
    EXPECT_EQ(error.on[0].record.text, relation.id.text);
}

// By hand: 4 x 6 x 72 in = 1 ft3 and 864 in3 = 1/2 ft3; separate boards err on their own.
TEST(PlanMass, AWeightSumsSuchMasses) {
    const auto reg = withMass(withMass(twoBoards(), first()), second());
    const auto analysis = judgement::analyse(reg);
    ASSERT_TRUE(analysis) << analysis.error().place << analysis.error().help;
    EXPECT_NEAR(*resultOf(*analysis, "d11").value, kAsh, 1e-6);
    EXPECT_NEAR(*resultOf(*analysis, "d12").value, kAsh / 2, 1e-6);
    EXPECT_NEAR(*resultOf(*analysis, "d13").value, 1.5 * kAsh, 1e-6);
    const double apart = kAsh * kAshU * std::hypot(1.0, 0.5);
    EXPECT_NEAR(*resultOf(*analysis, "d13").u, apart, 0.01);
    EXPECT_EQ(resultOf(*analysis, "d13").grade, record::Grade::CarriedOver);
}

TEST(PlanMass, PartsOutOfOneBoardErrTogether) {
    auto reg = withMass(twoBoards(), first());
    auto draft = second();
    draft.sameStock = reg.relations.back().id;
    reg = withMass(std::move(reg), draft);
    ASSERT_EQ(reg.sharedErrors.size(), 1U);
    EXPECT_EQ(reg.sharedErrors[0].on.size(), 2U);
    const auto analysis = judgement::analyse(reg);
    ASSERT_TRUE(analysis);
    EXPECT_NEAR(*resultOf(*analysis, "d13").u, 1.5 * kAsh * kAshU, 0.01);
}

// The doubt follows the mass: twice the volume, twice the u.
TEST(PlanMass, DoubtIsOfTheMassAsItIsNow) {
    auto reg = withMass(twoBoards(), second());
    const auto before = judgement::analyse(reg);
    for (auto& reading : reg.readings)
        if (reading.id.text == "r7") reading.value = record::Number{1728, ""};
    const auto after = judgement::analyse(reg);
    ASSERT_TRUE(before && after);
    EXPECT_NEAR(*resultOf(*after, "d12").u / *resultOf(*before, "d12").u, 2, 1e-3);
}

// A weight on record checks the sum and is not spread over the parts (use: check).
TEST(PlanMass, AWeighedTotalChecksTheSum) {
    auto reg = withMass(withMass(twoBoards(), first()), second());
    reg.relations[0].use = record::RelationUse{record::Use::Check};
    record::Reading weighed;
    weighed.id = {"r13"};
    weighed.of = {"d13"};
    weighed.basis = record::Basis::Stated;
    weighed.source = record::SourceId{"s1"};
    weighed.value = record::Number{70, ""};
    weighed.u = 0.5;
    reg.readings.push_back(weighed);
    const auto analysis = judgement::analyse(reg);
    ASSERT_TRUE(analysis);
    EXPECT_NEAR(*resultOf(*analysis, "d11").value, kAsh, 1e-6);
    EXPECT_NEAR(*resultOf(*analysis, "d13").value, 70, 1e-6);
}

TEST(PlanMass, TakesAFigureForTheVolumeAndAMetricDensity) {
    const auto reg = twoBoards();
    MassDraft draft{.of = {"d11"}, .volume = "120 in3", .tableRow = "dn-steel"};
    const auto plan = planMass(contextOf(reg), draft);
    EXPECT_EQ(theOne<record::Relation>(plan).formula, "D11 = (120 in3) * 7.85 g / 1 cm3");
    const auto analysis = judgement::analyse(record::applied(reg, *plan));
    ASSERT_TRUE(analysis);
    // 16.387064 cm3 to the cubic inch, 453.59237 g to the pound, both exact.
    EXPECT_NEAR(*resultOf(*analysis, "d11").value, 120 * 16.387064 * 7.85 / 453.59237, 1e-9);
}

TEST(PlanMass, OwnRowsBringTheirSource) {
    auto reg = twoBoards();
    record::TableRow own;
    own.id = "our-ash";
    own.kind = record::TableRowKind::Density;
    own.name = "offcut of the sill, weighed";
    own.value = 44;
    own.unit = "lb/ft3";
    own.u = 0.4;
    own.source = {"s1"};
    reg.archive.settings = record::Settings{};
    reg.archive.settings->tableRows = {own};
    auto draft = first();
    draft.tableRow = "our-ash";
    const auto relation = theOne<record::Relation>(planMass(contextOf(reg), draft));
    EXPECT_EQ(relation.source, record::SourceId{"s1"});
    EXPECT_EQ(relation.basis, record::Basis::Stated);
}

TEST(PlanMass, RefusesWhatMakesNoMass) {
    const auto reg = twoBoards();
    const auto refused = [&](void (*spoil)(MassDraft&), Code code, const std::string& place) {
        auto draft = first();
        spoil(draft);
        expectRefused(planMass(contextOf(reg), draft), code, place);
    };
    refused([](MassDraft& d) { d.of = {"d1"}; }, Code::BadUnit, "of");
    refused([](MassDraft& d) { d.of = {"d99"}; }, Code::MissingTarget, "of");
    refused([](MassDraft& d) { d.volume = " "; }, Code::MissingKey, "volume");
    refused([](MassDraft& d) { d.volume = "D4*D5"; }, Code::BadUnit, "volume");
    refused([](MassDraft& d) { d.volume = "120"; }, Code::BadUnit, "volume");
    refused([](MassDraft& d) { d.volume = "D4*D5*"; }, Code::BadFormula, "volume");
    refused([](MassDraft& d) { d.volume = "D99"; }, Code::MissingTarget, "volume");
    refused([](MassDraft& d) { d.volume = "D7 * D11 / D12"; }, Code::WrongUse, "volume");
    refused([](MassDraft& d) { d.volume = "D7) + (D7"; }, Code::BadFormula, "volume");
    refused([](MassDraft& d) { d.tableRow = "dn-kryptonite"; }, Code::MissingTarget, "table_row");
    refused([](MassDraft& d) { d.tableRow = "rg-standard"; }, Code::WrongUse, "table_row");
    refused([](MassDraft& d) { d.sameStock = record::RelationId{"sum"}; }, Code::WrongUse,
            "same_stock");
}

TEST(PlanMass, IsTakenBackWhole) {
    PlannedArchive archive;
    record::ChangeSet more{"prepare", {}};
    record::Dimension mass;
    mass.id = {"d11"};
    mass.code = "D11";
    mass.name = "mass of the sill";
    mass.quantity = record::DimensionQuantity::Mass;
    more.changes.push_back({std::nullopt, mass});
    archive.perform(more);
    const auto before = archive.reg();
    const auto done = archive.perform(planMass(
        archive.context(), {.of = {"d11"}, .volume = "D1*D3^2", .tableRow = "dn-oak-white"}));
    ASSERT_EQ(archive.reg().relations.size(), 1U);
    EXPECT_EQ(archive.reg().relations[0].formula, "D11 = (D1*D3^2) * 47.5 lb / 1 ft3");
    archive.takeBack(done);
    EXPECT_EQ(archive.reg(), before);
}

}  // namespace
}  // namespace planning

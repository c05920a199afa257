// Wood, castings and sheets against the tables they were taken from.
#include "tests/evidence-core/trade/known_row.h"

#include <cmath>
#include <map>

namespace {

using namespace trading;

// USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-190), Table 4-3: radial, tangential.
TEST(WoodTables, ShrinkageIsTable4Dash3) {
    const std::map<std::string, std::pair<double, double>> printed{
        {"ash-white", {4.9, 7.8}},         {"oak-white", {5.6, 10.5}},
        {"beech-american", {5.5, 11.9}},   {"birch-yellow", {7.3, 9.5}},
        {"walnut-black", {5.5, 7.8}},      {"yellow-poplar", {4.6, 8.2}},
        {"basswood", {6.6, 9.3}},          {"elm-rock", {4.8, 8.1}},
        {"douglas-fir-coast", {4.8, 7.6}}, {"douglas-fir-interior", {3.8, 6.9}},
        {"cedar-port-orford", {4.6, 6.9}}, {"cedar-western-red", {2.4, 5.0}}};
    for (const auto& [wood, percent] : printed) {
        EXPECT_DOUBLE_EQ(valueOf("ws-" + wood + "-r"), percent.first / 100) << wood;
        EXPECT_DOUBLE_EQ(valueOf("ws-" + wood + "-t"), percent.second / 100) << wood;
        EXPECT_FALSE(row("ws-" + wood + "-t").fromMemory) << wood;
    }
}

// The same, Table 13-5: white oak 0.00180 and 0.00365, white ash 0.00169 and 0.00274.
TEST(WoodTables, MovementIsTable13Dash5) {
    EXPECT_EQ(valueOf("wm-oak-white-r"), 0.00180);
    EXPECT_EQ(valueOf("wm-oak-white-t"), 0.00365);
    EXPECT_EQ(valueOf("wm-ash-white-r"), 0.00169);
    EXPECT_EQ(valueOf("wm-ash-white-t"), 0.00274);
}

// Both tables tell of the same woods: a coefficient is the shrinkage over about 28 per cent of
// moisture (Wood Handbook, fibre saturation 25 to 30), so the two must agree within their spreads.
TEST(WoodTables, MovementAndShrinkageAgree) {
    int compared = 0;
    for (const auto& each : trade::Tables::builtIn().rows()) {
        if (each.kind != record::TableRowKind::WoodMovement || each.id == "wm-unknown") continue;
        const auto& shrinkage = row("ws" + each.id.substr(2));
        const double byShrinkage = shrinkage.canonical(shrinkage.value) / 28;
        const double u = std::hypot(each.u, shrinkage.canonical(shrinkage.u) / 28);
        EXPECT_LT(std::abs(each.value - byShrinkage), 1.5 * u) << each.id;
        ++compared;
    }
    EXPECT_GE(compared, 22);
}

// Pattern-makers' rules of the trade (common practice): iron 1/8, steel 1/4, brass 3/16 in/ft,
// which make the ratios 1.0104, 1.0208 and 1.0156 by which a rule is told.
TEST(CastingTable, IsThePatternMakersRule) {
    EXPECT_NEAR(1 + valueOf("cc-grey-iron"), 1.0104, 5e-5);
    EXPECT_NEAR(1 + valueOf("cc-cast-steel"), 1.0208, 5e-5);
    EXPECT_NEAR(1 + valueOf("cc-brass"), 1.0156, 5e-5);
}

// Clerc, Photography: Theory and Practice: paper moves more across its grain than along.
TEST(SheetTable, NoChangeIsAssumedAndAcrossIsMoreThanAlong) {
    for (const auto& each : trade::Tables::builtIn().rows()) {
        if (each.kind != record::TableRowKind::SheetChange) continue;
        EXPECT_EQ(each.value, 0) << each.id;
    }
    EXPECT_EQ(row("sc-paper-along").canonical(row("sc-paper-along").u), 0.003);
    EXPECT_EQ(row("sc-paper-across").canonical(row("sc-paper-across").u), 0.006);
    EXPECT_LT(row("sc-polyester-along").u, row("sc-tracing-paper-along").u);
}

}  // namespace

// Wire and sheet gauges against what is published about them.
#include "tests/evidence-core/trade/known_row.h"

#include <cmath>
#include <map>

namespace {

using namespace trading;

// 0.005 x 92^((36 - n)/39) inch: ASTM B258; 4/0 counts as -3.
TEST(GaugeTables, AmericanGaugeIsItsFormula) {
    for (int n = -3; n <= 40; ++n) {
        const std::string id = n < 0 ? "awg-" + std::string(static_cast<std::size_t>(1 - n), '0')
                                     : "awg-" + std::to_string(n);
        const double d = 0.005 * std::pow(92.0, (36.0 - n) / 39.0);
        // Tables print four decimals.
        EXPECT_NEAR(valueOf(id), d, 0.00006) << id;
    }
    EXPECT_EQ(valueOf("awg-36"), 0.005);
    EXPECT_EQ(valueOf("awg-0000"), 0.46);
}

// The legal table of 1883 as reprinted in Rivington's Notes on Building Construction, part 3 (New
// Imperial Standard Wire Gauge, denominations of standards): every fifth line, and the ends.
TEST(GaugeTables, ImperialStandardIsTheLegalTable) {
    const std::map<std::string, double> printed{
        {"swg-7x0", .500}, {"swg-5x0", .432}, {"swg-0", .324},   {"swg-5", .212},
        {"swg-10", .128},  {"swg-15", .072},  {"swg-16", .064},  {"swg-20", .036},
        {"swg-25", .020},  {"swg-27", .0164}, {"swg-30", .0124}, {"swg-35", .0084},
        {"swg-40", .0048}, {"swg-45", .0028}, {"swg-50", .0010}};
    for (const auto& [id, d] : printed) EXPECT_EQ(valueOf(id), d) << id;
}

// The order that fixed it steps by whole mils (7/0 to 1: 24 to 36; then 24, 20, 16, 12, 8, 4 …).
TEST(GaugeTables, ImperialStandardFallsFromLineToLine) {
    double before = 1;
    for (const std::string n : {"7x0", "6x0", "5x0", "4x0", "3x0", "2x0"}) {
        EXPECT_LT(valueOf("swg-" + n), before);
        before = valueOf("swg-" + n);
    }
    for (int n = 0; n <= 50; ++n) {
        EXPECT_LT(valueOf("swg-" + std::to_string(n)), before) << n;
        before = valueOf("swg-" + std::to_string(n));
    }
}

// Holtzapffel's measures, as reprinted on the same page of the Notes on Building Construction.
TEST(GaugeTables, BirminghamIsHoltzapffels) {
    const std::map<std::string, double> printed{
        {"bwg-4x0", .454}, {"bwg-0", .340},  {"bwg-4", .238},  {"bwg-8", .165},
        {"bwg-12", .109},  {"bwg-16", .065}, {"bwg-18", .049}, {"bwg-20", .035},
        {"bwg-24", .022},  {"bwg-28", .014}, {"bwg-32", .009}, {"bwg-36", .004}};
    for (const auto& [id, d] : printed) EXPECT_EQ(valueOf(id), d) << id;
}

// 15 U.S.C. 206 (act of 3 March 1893): ounces of a square foot of wrought iron at 480 lb to the
// cubic foot, so that 640 ounces are an inch. The weights from memory.
TEST(GaugeTables, UnitedStatesSheetIsDefinedByWeight) {
    const std::map<std::string, double> ounces{{"ussg-7x0", 320}, {"ussg-3", 160}, {"ussg-10", 90},
                                               {"ussg-16", 40},   {"ussg-20", 24}, {"ussg-24", 16},
                                               {"ussg-28", 10},   {"ussg-30", 8}};
    for (const auto& [id, weight] : ounces) EXPECT_NEAR(valueOf(id), weight / 640, 6e-6) << id;
    for (const auto& each : trade::Tables::builtIn().rows()) {
        if (each.system != "ussg") continue;
        const double quarters = each.value * 640 * 4;
        EXPECT_NEAR(quarters, std::round(quarters), 0.02) << each.id;
    }
}

// The same weights in steel, 41.82 lb to the square foot and inch: 16 gauge is 0.0598 (practice of
// the steel trade, from memory).
TEST(GaugeTables, SteelSheetIsThinnerThanIronOfTheSameWeight) {
    EXPECT_NEAR(valueOf("msg-16"), 0.0598, 5e-5);
    EXPECT_NEAR(valueOf("msg-10"), 0.1345, 5e-5);
    for (int n = 3; n <= 38; ++n)
        EXPECT_NEAR(valueOf("msg-" + std::to_string(n)) / valueOf("ussg-" + std::to_string(n)),
                    40 / 41.82, 0.01)
            << n;
}

// Comparative gauge table of the wire-weaving trade (four systems side by side), Nos. 7/0 to 20.
TEST(GaugeTables, SteelWireIsTheWeaversTable) {
    const std::map<std::string, double> printed{
        {"wmg-7x0", .4900}, {"wmg-0", .3065},  {"wmg-4", .2253},  {"wmg-8", .1620},
        {"wmg-10", .1350},  {"wmg-12", .1055}, {"wmg-16", .0625}, {"wmg-20", .0348}};
    for (const auto& [id, d] : printed) EXPECT_EQ(valueOf(id), d) << id;
}

}  // namespace

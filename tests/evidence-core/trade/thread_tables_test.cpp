// Threads, pipes, screws and rivets against their standards.
#include "evidence-core/quantity/inch.h"
#include "tests/evidence-core/trade/known_row.h"

#include <cmath>
#include <map>

namespace {

using namespace trading;
using quantity::Inch;

// Threads to the inch: Whitworth as in BS 84, Sellers as in the report of the Franklin Institute of
// 1864, SAE fine; all as machinists' handbooks have them (from memory). 1/2 in is the size at which
// Whitworth (12) and Sellers (13) part.
TEST(ThreadTables, PitchIsOneOverThreadsToTheInch) {
    const std::map<std::string, double> threads{
        {"bsw-p-1_4", 20}, {"bsw-p-1_2", 12}, {"bsw-p-3_4", 10}, {"bsw-p-1", 8},
        {"bsw-p-2", 4.5},  {"bsf-p-1_4", 26}, {"bsf-p-1_2", 16}, {"uss-p-1_4", 20},
        {"uss-p-1_2", 13}, {"uss-p-3_4", 10}, {"sae-p-1_4", 28}, {"sae-p-1_2", 20}};
    for (const auto& [id, perInch] : threads) EXPECT_NEAR(valueOf(id), 1 / perInch, 5e-6) << id;
}

// British Association, 1884 and BS 93: p = 0.9^n mm and d = 6 p^1.2 mm, rounded to two figures.
TEST(ThreadTables, BritishAssociationIsItsFormula) {
    for (int n = 0; n <= 12; ++n) {
        const double pitch = std::pow(0.9, n);
        EXPECT_NEAR(Inch::fromInches(valueOf("ba-p-" + std::to_string(n))).toMillimetres(), pitch,
                    0.0051)
            << n;
        EXPECT_NEAR(Inch::fromInches(valueOf("ba-d-" + std::to_string(n))).toMillimetres(),
                    6 * std::pow(pitch, 1.2), 0.051)
            << n;
    }
}

// Makers' tables of ISO 228 (a printed one gives 9.62, 13.03, 20.82, 33.07 mm as the middle of the
// limits) and of ANSI B1.20.1: outside diameters 0.540, 0.840, 1.315 in.
TEST(ThreadTables, PipeSizesNameABoreAndMeasureMore) {
    const std::map<std::string, double> millimetres{
        {"bsp-d-1_8", 9.62}, {"bsp-d-1_4", 13.03}, {"bsp-d-1_2", 20.82}, {"bsp-d-1", 33.07}};
    for (const auto& [id, d] : millimetres)
        EXPECT_NEAR(Inch::fromInches(valueOf(id)).toMillimetres(), d, 0.2) << id;
    EXPECT_EQ(valueOf("npt-d-1_4"), 0.540);
    EXPECT_EQ(valueOf("npt-d-1_2"), 0.840);
    EXPECT_EQ(valueOf("npt-d-1"), 1.315);
    EXPECT_NEAR(valueOf("npt-p-1"), 1 / 11.5, 1e-6);
}

// ASME B18.6.1 as tabulated by screw makers: No. 0 is 0.060 in, No. 20 is 0.320 in.
TEST(ThreadTables, WoodScrewsStepEvenly) {
    EXPECT_NEAR(valueOf("wsc-gb-0"), 0.060, 1e-9);
    EXPECT_NEAR(valueOf("wsc-gb-20"), 0.320, 1e-9);
    EXPECT_NEAR(valueOf("wsc-gb-8"), 0.164, 1e-9);
}

// Sellers: rough heads are 1.5 D + 1/8 across the flats.
TEST(ThreadTables, SellersHeadsAreTheirRule) {
    for (const auto& [size, d] : std::map<std::string, double>{
             {"1_4", .25}, {"3_8", .375}, {"1_2", .5}, {"5_8", .625}, {"3_4", .75}, {"1", 1}})
        EXPECT_DOUBLE_EQ(valueOf("uss-h-" + size), 1.5 * d + 0.125) << size;
}

// BS 275:1927: a snap head is 1.6 D; the American button head 1.75 D (from memory).
TEST(ThreadTables, RivetHeadsAreProportional) {
    EXPECT_DOUBLE_EQ(valueOf("rv-snap-5_8"), 1.6 * 0.625);
    EXPECT_DOUBLE_EQ(valueOf("rv-button-3_4"), 1.75 * 0.75);
}

// The trap of the two Whitworth head series: 1/2 in is 0.92 across the flats and later 0.82.
TEST(ThreadTables, WhitworthHeadsAreTwoSeries) {
    EXPECT_NEAR(valueOf("bsw-h1-1_2"), 0.9191, 1e-9);
    EXPECT_NEAR(valueOf("bsw-h2-1_2"), 0.816, 1e-9);
}

}  // namespace

// Densities, and the exactness of their units.
#include "evidence-core/trade/density.h"
#include "tests/evidence-core/trade/known_row.h"

#include <map>

namespace {

using namespace trading;
using trade::Density;

// NIST SP 811 (2008), appendix B.8: 1 lb/ft3 = 16.018 46 kg/m3, 1 lb/in3 = 27 679.90 kg/m3.
TEST(Density, UnitsAreThoseOfThePublishedFactors) {
    EXPECT_NEAR(Density::fromPoundsPerCubicFoot(1) / Density::fromGramsPerCubicCentimetre(1),
                0.01601846, 5e-9);
    EXPECT_NEAR(Density::fromPoundsPerCubicInch(1) / Density::fromGramsPerCubicCentimetre(1),
                27.67990, 5e-6);
    EXPECT_EQ(Density::fromPoundsPerCubicFoot(1728).toPoundsPerCubicInch(), 1);
}

// Exact: 0.45359237 kg to the pound, 16.387064 cm3 to the cubic inch.
TEST(Density, FactorIsTheExactRatio) {
    EXPECT_EQ(trade::kGramPerCubicCentimetre.value(), 16387064.0 / 453592370.0);
    EXPECT_EQ(trade::factorToCanonical(trade::RowUnit::KilogramPerCubicMetre),
              16387064.0 / 453592370000.0);
}

TEST(Density, TimesAVolumeIsAMass) {
    const auto cubicFoot = quantity::CubicInch::fromCubicInches(1728);
    EXPECT_DOUBLE_EQ((Density::fromPoundsPerCubicFoot(42) * cubicFoot).toPounds(), 42);
}

// Wood Handbook: density at 12 % = specific gravity x 1.12 x 62.4 lb/ft3; printed to whole pounds
// for white ash 42, white oak 48, Sitka spruce 28, beech 45 in shipping-weight tables of the trade
// (whole pounds, from memory).
TEST(DensityTable, WoodsFollowTheirSpecificGravity) {
    const std::map<std::string, double> gravity{
        {"dn-ash-white", .60},      {"dn-spruce-sitka", .40},      {"dn-oak-white", .68},
        {"dn-beech-american", .64}, {"dn-douglas-fir-coast", .48}, {"dn-basswood", .37}};
    for (const auto& [id, g] : gravity) {
        EXPECT_NEAR(row(id).value, g * 1.12 * 62.4, 0.051) << id;
        EXPECT_NEAR(row(id).u / row(id).value, 0.10, 0.001) << id;
    }
}

// CRC Handbook of Chemistry and Physics, densities of the elements at room temperature, g/cm3
// (from memory): Cu 8.96, Pb 11.3, Zn 7.13, Sn 7.29, Al 2.70.
TEST(DensityTable, MetalsAreTheElements) {
    const std::map<std::string, double> elements{{"dn-copper", 8.96},
                                                 {"dn-lead", 11.3},
                                                 {"dn-zinc", 7.13},
                                                 {"dn-tin", 7.29},
                                                 {"dn-aluminium", 2.70}};
    for (const auto& [id, d] : elements)
        EXPECT_NEAR(
            Density::fromPoundsPerCubicInch(valueOf(id)) / Density::fromGramsPerCubicCentimetre(1),
            d, 0.05)
            << id;
}

// The US Standard gauge takes 480 lb/ft3 for wrought iron (act of 3 March 1893); steel is 2 % more.
TEST(DensityTable, IronIsTheGaugesBasis) {
    EXPECT_EQ(row("dn-wrought-iron").value, 480);
    EXPECT_NEAR(valueOf("dn-steel") / valueOf("dn-wrought-iron"), 1.02, 0.005);
}

}  // namespace

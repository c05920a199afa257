#include "sample-archive/truth.h"

#include "sample-archive/sizes.h"

#include <gtest/gtest.h>

#include <set>

namespace {

TEST(Truth, BaysOfTheDesignFillTheBody) {
    const sample::Railcar car = sample::designed();
    double bays = 0;
    for (int bay = 1; bay <= 9; ++bay) bays += car.bay(bay);
    EXPECT_DOUBLE_EQ(bays + 2 * 1.25, car.bodyLength);
}

TEST(Truth, BandsOfTheSideReachFromFootToCantrail) {
    auto values = sample::trueValues(sample::designed());
    EXPECT_DOUBLE_EQ(values["d-side-height"],
                     values["d-sill-depth"] + values["d-lower-panel"] + values["d-waist-depth"] +
                         values["d-waist-to-window"] + values["d-window-height"] +
                         values["d-window-to-cantrail"] + values["d-cantrail-depth"]);
}

TEST(Truth, MassesOfThePartsAreTheTare) {
    auto values = sample::trueValues(sample::designed());
    EXPECT_DOUBLE_EQ(values["d-mass-tare"], values["d-mass-body"] + values["d-mass-underframe"] +
                                                values["d-mass-wheelsets"] +
                                                values["d-mass-engine"] + values["d-mass-roof"] +
                                                values["d-mass-seats"] + values["d-mass-brake"]);
}

TEST(Truth, SameSeedMakesTheSameCarAndAnotherSeedAnother) {
    EXPECT_EQ(sample::trueValues(sample::built(5)), sample::trueValues(sample::built(5)));
    EXPECT_NE(sample::trueValues(sample::built(5)), sample::trueValues(sample::built(6)));
}

TEST(Truth, PlateStaysWithinItsMakersLimits) {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const sample::Railcar car = sample::built(seed);
        EXPECT_GE(car.plateLength, 18.0 - 0.0625);
        EXPECT_LE(car.plateLength, 18.0 + 0.0625);
    }
}

TEST(Sizes, IdsAreDistinctAndFormulasTakeTheirCodes) {
    std::set<std::string> ids;
    for (const sample::Size& size : sample::sizesOf(sample::designed())) {
        EXPECT_TRUE(ids.insert(size.id).second) << size.id;
    }
    EXPECT_GE(ids.size(), 120U);
    EXPECT_EQ(sample::withCodes("{d-body-length} = 2*{d-over-headstocks}"), "D1 = 2*D2");
}

}  // namespace

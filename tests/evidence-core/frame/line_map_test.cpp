#include "evidence-core/frame/line_map.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

namespace evidence::frame {
namespace {

TEST(LineMap, FollowsTheWorkedExampleOfTheCrossRatio) {
    // By hand: t = 0, 100, 190 at 0, 10, 20 in: a = 0.0947368, c = −5.26316e-4, and t = 272 lies at
    // 30.0737 in (X = a·t/(c·t + 1)).
    LineMap map;
    map.parameters << 0.09473684210526316, 0, -5.2631578947368421e-4;
    EXPECT_NEAR(placeAlong(map, {100, 0})->value, 10, 1e-12);
    EXPECT_NEAR(placeAlong(map, {190, 0})->value, 20, 1e-12);
    EXPECT_NEAR(placeAlong(map, {272, 0})->value, 30.0737, 5e-5);
}

TEST(LineMap, DerivativesEqualNumericalDifferences) {
    Eigen::VectorXd z(5);
    z << 30, 2, 0.25, 433, 218;
    const auto f = [](const Eigen::VectorXd& v) {
        LineMap map;
        map.origin = {300, 200};
        map.along = Point(4, 3) / 5;
        map.unit = 150;
        map.parameters = v.head<3>();
        return *placeAlong(map, {v(3), v(4)});
    };
    const Eigen::VectorXd numeric =
        test::numericJacobian([&f](const Eigen::VectorXd& v) { return f(v).value; }, z);
    EXPECT_LT(test::differenceOf(f(z).jacobian.transpose(), numeric), 1e-7);
}

TEST(LineMap, EndsAtItsVanishingPoint) {
    LineMap map;
    map.parameters << 1, 0, -0.01;
    EXPECT_TRUE(placeAlong(map, {90, 0}));
    EXPECT_FALSE(placeAlong(map, {100, 0}));
    EXPECT_FALSE(placeAlong(map, {150, 0}));
}

}  // namespace
}  // namespace evidence::frame

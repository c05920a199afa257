#include "evidence-core/frame/plane_map.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

namespace evidence::frame {
namespace {

PlaneMap oblique() {
    PlaneMap map;
    map.centre = {320, 240};
    map.unit = 400;
    map.parameters << 0.3, -0.2, 40, 3, -2, 55, 7, -4;
    return map;
}

TEST(PlaneMap, CarriesTheUnitSquareOfTheWorkedExample) {
    // By hand, exact: (0,0),(1,0),(1,1),(0,1) -> (0,0),(4,0),(3,2),(1,2) is [4 2 0; 0 4 0; 0 1 1];
    // (½, ½) goes to (2, 4/3). With unit 1 and centre 0: l = (0, 1), A = [4 2; 0 4], t = 0.
    PlaneMap map;
    map.parameters << 0, 1, 4, 2, 0, 4, 0, 0;
    EXPECT_LT((carried(map, {1, 1})->at - Point(3, 2)).norm(), 1e-15);
    EXPECT_LT((carried(map, {0, 1})->at - Point(1, 2)).norm(), 1e-15);
    EXPECT_LT((carried(map, {0.5, 0.5})->at - Point(2, 4.0 / 3)).norm(), 1e-15);
}

TEST(PlaneMap, MatrixSaysTheSame) {
    const PlaneMap map = oblique();
    const Eigen::Vector3d x = map.matrix() * Eigen::Vector3d(611, 92, 1);
    EXPECT_LT((carried(map, {611, 92})->at - Point(x.head<2>() / x.z())).norm(), 1e-12);
}

TEST(PlaneMap, DerivativesEqualNumericalDifferences) {
    Eigen::VectorXd z(10);
    z << oblique().parameters, 611, 92;
    const auto f = [](const Eigen::VectorXd& v) {
        PlaneMap map = oblique();
        map.parameters = v.head<8>();
        return Eigen::VectorXd(carried(map, Point(v(8), v(9)))->at);
    };
    const auto position = *carried(oblique(), {611, 92});
    Eigen::MatrixXd analytic(2, 10);
    analytic << position.byModel, position.byPixel;
    EXPECT_LT(test::differenceOf(analytic, test::numericJacobianRows(f, z)), 1e-7);
}

TEST(PlaneMap, NothingIsCarriedFromBeyondTheVanishingLine) {
    const PlaneMap map = oblique();  // w = 0 at n₁ = −1/0.3 on n₂ = 0
    EXPECT_TRUE(carried(map, {320 - 400 * 3.2, 240}));
    EXPECT_FALSE(carried(map, {320 - 400 * 3.3, 240}));
    EXPECT_FALSE(carried(map, {320 - 400 * 5.0, 240}));
}

}  // namespace
}  // namespace evidence::frame

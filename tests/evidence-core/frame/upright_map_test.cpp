#include "evidence-core/frame/upright_map.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace evidence::frame {
namespace {

/// The projected scene of docs/method/frames.md: f = 1000 px, principal point 0, camera 60 in above
/// the ground, tilted 10° down. v = (0, 5671.282), horizon y = −176.326981.
UprightMap scene() {
    UprightMap map;
    map.unit = 1000;
    map.upward = {0, 1};
    map.parameters << std::numbers::pi / 2, -0.176326981, 0, 1 / 5.671282, 1;
    return map;
}

TEST(UprightMap, HeightFollowsTheProjectedScene) {
    UprightMap map = scene();
    const Point foot(-163.4728, 22.8666);
    const Point head(-170.4399, -217.8636);
    map.parameters(UprightMap::Scale) = 72 / heightOf(map, foot, head)->value;
    EXPECT_NEAR(heightOf(map, {74.1946, -25.6486}, {77.5240, -281.2868})->value, 100, 2e-4);
}

TEST(UprightMap, DerivativesEqualNumericalDifferences) {
    Eigen::VectorXd z(10);
    z << std::numbers::pi / 2 + 0.03, -0.17, 0.02, 0.18, 50, 0.4, 74, -25, 80, -281;
    const auto mapOf = [](const Eigen::VectorXd& v) {
        UprightMap map = scene();
        map.upward = Point(0.06, 1).normalized();
        map.parameters = v.head<5>();
        return map;
    };
    const auto height = [&mapOf](const Eigen::VectorXd& v) {
        return heightOf(mapOf(v), {v(6), v(7)}, {v(8), v(9)})->value;
    };
    const auto vertical = [&mapOf](const Eigen::VectorXd& v) {
        return offVertical(mapOf(v), {v(6), v(7)}, {v(8), v(9)}).value;
    };
    const auto ground = [&mapOf](const Eigen::VectorXd& v) {
        return offGround(mapOf(v), v(5), {v(6), v(7)}, {v(8), v(9)}).value;
    };
    const Point p(z(6), z(7));
    const Point q(z(8), z(9));
    const auto withoutBearing = [](const Eigen::VectorXd& all) {
        Eigen::VectorXd nine(9);
        nine << all.head<5>(), all.tail<4>();
        return nine;
    };
    EXPECT_LT(test::differenceOf(heightOf(mapOf(z), p, q)->jacobian.transpose(),
                                 withoutBearing(test::numericJacobian(height, z))),
              1e-6);
    EXPECT_LT(test::differenceOf(offVertical(mapOf(z), p, q).jacobian.transpose(),
                                 withoutBearing(test::numericJacobian(vertical, z))),
              1e-6);
    EXPECT_LT(test::differenceOf(offGround(mapOf(z), z(5), p, q).jacobian.transpose(),
                                 test::numericJacobian(ground, z)),
              1e-6);
}

TEST(UprightMap, ABaseOnTheHorizonHasNoHeight) {
    EXPECT_FALSE(heightOf(scene(), {10, -176.326981}, {10, -300}));
}

}  // namespace
}  // namespace evidence::frame

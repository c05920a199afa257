#include "evidence-core/frame/camera_map.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>

namespace evidence::frame {
namespace {

CameraMap camera() {
    CameraMap map;
    map.start = Eigen::AngleAxisd(0.5, Eigen::Vector3d(0.2, -1, 0.3).normalized()).matrix();
    map.parameters << 0.05, -0.02, 0.03, 120, -40, -300, std::log(1000.0), 640, 480;
    return map;
}

TEST(CameraMap, ProjectsAlongItsAxisOntoThePrincipalPoint) {
    const CameraMap map = camera();
    const Eigen::Vector3d axis = map.rotation().row(2).transpose();
    const auto p = projected(map, map.centre() + 55 * axis);
    EXPECT_LT((p->pixel - Point(640, 480)).norm(), 1e-9);
    EXPECT_FALSE(projected(map, map.centre() - axis));
}

TEST(CameraMap, ProjectionDerivativesEqualNumericalDifferences) {
    Eigen::VectorXd z(12);
    z << camera().parameters, 60, 15, 25;
    const auto f = [](const Eigen::VectorXd& v) {
        CameraMap map = camera();
        map.parameters = v.head<9>();
        return Eigen::VectorXd(projected(map, v.tail<3>())->pixel);
    };
    const auto p = *projected(camera(), z.tail<3>());
    Eigen::MatrixXd analytic(2, 12);
    analytic << p.byModel, p.byPoint;
    EXPECT_LT(test::differenceOf(analytic, test::numericJacobianRows(f, z)), 1e-7);
}

TEST(CameraMap, ARayMeetsThePlaneWhereItsPointLies) {
    const auto plane = *planeThrough({0, 0, 10}, {50, 5, 12}, {3, 40, 30});
    const Eigen::Vector3d x = plane.origin + 17 * plane.first + 23 * plane.second;
    const auto place = carried(camera(), plane, projected(camera(), x)->pixel);
    ASSERT_TRUE(place);
    EXPECT_LT((place->at - Point(17, 23)).norm(), 1e-9);

    Eigen::VectorXd z(11);
    z << camera().parameters, projected(camera(), x)->pixel;
    const auto f = [&plane](const Eigen::VectorXd& v) {
        CameraMap map = camera();
        map.parameters = v.head<9>();
        return Eigen::VectorXd(carried(map, plane, Point(v(9), v(10)))->at);
    };
    Eigen::MatrixXd analytic(2, 11);
    analytic << place->byModel, place->byPixel;
    EXPECT_LT(test::differenceOf(analytic, test::numericJacobianRows(f, z)), 1e-6);
}

TEST(CameraMap, DistanceAndDirectionDerivativesEqualNumericalDifferences) {
    const auto plane = *planeThrough({0, 0, 10}, {50, 5, 12}, {3, 40, 30});
    const auto distance = [&plane](const Eigen::VectorXd& v) {
        CameraMap map = camera();
        map.parameters = v;
        return distanceTo(map, plane).value;
    };
    EXPECT_LT(test::differenceOf(distanceTo(camera(), plane).jacobian.transpose(),
                                 test::numericJacobian(distance, camera().parameters)),
              1e-7);
    Eigen::VectorXd z(13);
    z << camera().parameters, 600, 500, 700, 380;
    const Eigen::Vector3d along = Eigen::Vector3d(1, 2, 0.5).normalized();
    const auto off = [&along](const Eigen::VectorXd& v) {
        CameraMap map = camera();
        map.parameters = v.head<9>();
        return offDirection(map, along, {v(9), v(10)}, {v(11), v(12)});
    };
    EXPECT_LT(test::differenceOf(
                  off(z).jacobian.transpose(),
                  test::numericJacobian([&off](const auto& v) { return off(v).value; }, z)),
              1e-6);
    // The picture of a line along the direction has no sine.
    const auto p = projected(camera(), {60, 15, 25})->pixel;
    const auto q = projected(camera(), Eigen::Vector3d(60, 15, 25) + 30 * along)->pixel;
    EXPECT_NEAR(offDirection(camera(), along, p, q).value, 0, 1e-12);
}

TEST(CameraMap, ThreePointsOnALineGiveNoPlane) {
    EXPECT_FALSE(planeThrough({0, 0, 0}, {1, 1, 1}, {2, 2, 2}));
}

}  // namespace
}  // namespace evidence::frame

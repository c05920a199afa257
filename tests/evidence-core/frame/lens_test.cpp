#include "evidence-core/frame/lens.h"

#include "tests/evidence-core/frame/numeric_jacobian.h"

#include <gtest/gtest.h>

namespace evidence::frame {
namespace {

Lens barrel() {
    Lens lens;
    lens.unit = 400;
    lens.parameters << 322, 238, 0.19, -0.02;
    return lens;
}

TEST(Lens, DerivativesEqualNumericalDifferences) {
    Eigen::VectorXd z(6);
    z << barrel().parameters, 71, 388;
    const auto f = [](const Eigen::VectorXd& v) {
        Lens lens = barrel();
        lens.parameters = v.head<4>();
        return Eigen::VectorXd(straightened(lens, Point(v(4), v(5))).at);
    };
    const auto p = straightened(barrel(), {71, 388});
    Eigen::MatrixXd analytic(2, 6);
    analytic << p.byLens, p.byPixel;
    EXPECT_LT(test::differenceOf(analytic, test::numericJacobianRows(f, z)), 1e-7);
}

TEST(Lens, LeavesItsCentreAloneAndFoldsFarOutside) {
    EXPECT_LT((straightened(barrel(), {322, 238}).at - Point(322, 238)).norm(), 1e-12);
    EXPECT_TRUE(unfolds(barrel(), {0, 0}));
    EXPECT_FALSE(unfolds(barrel(), {2400, 238}));
}

}  // namespace
}  // namespace evidence::frame

#include "evidence-core/network/adjust.h"
#include "evidence-core/network/echo.h"
#include "evidence-core/network/equations.h"
#include "evidence-core/network/fit.h"
#include "evidence-core/network/solution.h"
#include "tests/support/large_register.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <map>

/// A part of more unknowns than are followed whole: what is told of it from near by must agree with
/// what the whole inverse says.
namespace {

using namespace evidence;
using namespace evidence::network;

class VeryLarge : public testing::Test {
  protected:
    static void SetUpTestSuite() {
        s_register = new record::Register(testsupport::largeRegister({.dimensions = 900}));
        s_solution = new Solution(solve(*s_register).value());
    }
    static void TearDownTestSuite() {
        delete s_solution;
        delete s_register;
    }
    static record::Register* s_register;
    static Solution* s_solution;
};
record::Register* VeryLarge::s_register = nullptr;
Solution* VeryLarge::s_solution = nullptr;

TEST_F(VeryLarge, IsOnePartAndConverges) {
    std::size_t largest = 0;
    for (const auto& part : s_solution->parts) largest = std::max(largest, part.dimensions.size());
    EXPECT_EQ(largest, 900U);
    EXPECT_TRUE(s_solution->converged);
    EXPECT_FALSE(s_solution->parts[0].influence->followsEveryRow());
}

TEST_F(VeryLarge, VariancesAndSharesAgreeWithTheWholeInverse) {
    const auto& influence = *s_solution->parts[0].influence;
    const Eigen::MatrixXd rows(influence.reducedRows());
    const Eigen::MatrixXd inverse = (rows.transpose() * rows).inverse();
    for (std::size_t d = 0; d < 900; d += 37) {
        const auto column = *s_solution->parts[0].columns[d];
        const Eigen::VectorXd whole = influence.covarianceWith(column);
        EXPECT_NEAR(whole(column), *s_solution->dimensions[d].u * *s_solution->dimensions[d].u,
                    1e-10 * whole(column));
        const auto pulls = influence.pullsOn(column);
        double followed = 0;
        for (const auto& [row, pull] : pulls.rows) {
            EXPECT_NEAR(pull, influence.pull(column, row), 2e-3 * std::abs(pull) + 1e-4);
            const double sigma = influence.at().sigma(static_cast<Eigen::Index>(row));
            followed += pull * pull * sigma * sigma;
        }
        EXPECT_NEAR(followed / whole(column) + pulls.unfollowed, 1.0, 2e-3);
        EXPECT_LT(pulls.unfollowed, 0.15);
    }
    // All of every row's variance is all of every unknown's.
    const auto n = static_cast<Eigen::Index>(influence.at().at.size());
    const Eigen::VectorXd all = influence.varianceFrom(Eigen::VectorXd::Ones(n));
    for (std::size_t d = 0; d < 900; d += 37) {
        const auto column = *s_solution->parts[0].columns[d];
        EXPECT_NEAR(all(column), influence.covariance(column, column), 1e-9 * all(column));
    }
    EXPECT_GT(inverse.diagonal().minCoeff(), 0);
}

TEST_F(VeryLarge, GainsOfNewReadingsAgreeWithColumnsOfTheInverse) {
    ASSERT_FALSE(s_solution->seekNext.empty());
    const auto& influence = *s_solution->parts[0].influence;
    Eigen::VectorXd weights = Eigen::VectorXd::Zero(influence.elimination().t.rows());
    std::map<std::size_t, double> tolerance;
    for (std::size_t d = 0; d < 900; ++d) {
        const auto& wanted = s_register->dimensions[d].tolerance;
        const auto& uncut = s_solution->dimensions[d].uncut95;
        if (wanted && (uncut->high - uncut->low) / 2 > *wanted / 2)
            weights(*s_solution->parts[0].columns[d]) = 1 / (*wanted * *wanted);
    }
    for (std::size_t k = 0; k < 5; ++k) {
        const auto& want = s_solution->seekNext[k * 7 % s_solution->seekNext.size()];
        const auto column = *s_solution->parts[0].columns[want.dimension];
        const Eigen::VectorXd q = influence.covarianceWith(column);
        const double gain =
            weights.dot(q.cwiseAbs2()) / (want.assumedU * want.assumedU + q(column));
        EXPECT_NEAR(want.gain, gain, 1e-9 * gain);
    }
}

TEST_F(VeryLarge, EveryReadingHasWhatBelongsToIt) {
    for (const auto& r : s_solution->readings) {
        ASSERT_TRUE(r.reliability) << r.id.text;
        EXPECT_GE(r.reliability->redundancy, 0);
        EXPECT_LE(r.reliability->redundancy, 1);
        ASSERT_TRUE(r.pull);
    }
}

}  // namespace

#include "evidence-core/network/solution.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <Eigen/LU>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

// What to measure next, and designs: worked by hand or recomputed; the equivalence theorem is
// published (Kiefer and Wolfowitz, 1960). That the ranking of the register comes from rank-one
// updates equal to a full re-adjustment: tests/evidence-core/network/combination_test.cpp.

namespace {

using namespace evidence;
using testsupport::NetSketch;

/// A chain a + b + c with its total read, and a further reading of a linear form.
struct Candidate {
    const char* name;
    const char* formula;  ///< empty: none
    double u;
    double trace, varianceOfA, determinant, gainD;
};

class ChainOfThree : public ::testing::TestWithParam<Candidate> {
  protected:
    static Eigen::Matrix3d covariance(const Candidate& candidate) {
        NetSketch b;
        for (const double u : {2.0, 1.0, 1.0}) {
            const auto d = b.dimension();
            b.reading(d, 100, u, b.source());
        }
        const auto total = b.dimension();
        b.reading(total, 300, 1, b.source());
        b.relation("D4 = D1 + D2 + D3");
        if (*candidate.formula) b.relation(candidate.formula, candidate.u, record::Basis::Measured);
        const auto s = network::solve(b.reg).value();
        Eigen::Matrix3d c;
        for (Eigen::Index i = 0; i < 3; ++i)
            for (Eigen::Index j = 0; j < 3; ++j)
                c(i, j) = s.covariance(static_cast<std::size_t>(i), static_cast<std::size_t>(j));
        return c;
    }
};

TEST_P(ChainOfThree, GainsByACandidate) {
    const Candidate& is = GetParam();
    const Eigen::Matrix3d before = covariance({"none", "", 0, 0, 0, 0, 0});
    EXPECT_NEAR(before.trace(), 24.0 / 7, 1e-12);
    EXPECT_NEAR(before.determinant(), 4.0 / 7, 1e-12);
    const Eigen::Matrix3d after = covariance(is);
    EXPECT_NEAR(after.trace(), is.trace, 1e-7);
    EXPECT_NEAR(after(0, 0), is.varianceOfA, 1e-7);
    EXPECT_NEAR(after.determinant(), is.determinant, 1e-7);
    EXPECT_NEAR(std::log(before.determinant() / after.determinant()), is.gainD, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(
    Candidates, ChainOfThree,
    ::testing::Values(
        Candidate{"a", "D1 = 100", 1, 2.1052632, 0.6315789, 0.2105263, 0.9985288},
        Candidate{"b", "D2 = 100", 1, 2.8461538, 1.5384615, 0.3076923, 0.6190392},
        Candidate{"a_plus_b", "D1 + D2 = 200", 1, 2.6470588, 1.1764706, 0.2352941, 0.8873032},
        Candidate{"a_minus_b", "D1 - D2 = 0", 1, 1.8484848, 0.6060606, 0.1212121, 1.5505974},
        Candidate{"total", "D4 = 300", 0.5, 3.0967742, 1.4193548, 0.1290323, 1.4880771}),
    [](const auto& candidate) { return std::string(candidate.param.name); });

/// Covariance of the coefficients of a quadratic read at −1, 0 and 1 with these weights.
Eigen::Matrix3d quadratic(double left, double middle, double right) {
    NetSketch b;
    for (int i = 0; i < 3; ++i) b.dimension(record::DimensionQuantity::Ratio);
    b.relation("5 = D1 - D2 + D3", 1 / std::sqrt(left), record::Basis::Measured);
    b.relation("7 = D1", 1 / std::sqrt(middle), record::Basis::Measured);
    b.relation("6 = D1 + D2 + D3", 1 / std::sqrt(right), record::Basis::Measured);
    const auto s = network::solve(b.reg).value();
    Eigen::Matrix3d c;
    for (Eigen::Index i = 0; i < 3; ++i)
        for (Eigen::Index j = 0; j < 3; ++j)
            c(i, j) = s.covariance(static_cast<std::size_t>(i), static_cast<std::size_t>(j));
    return c;
}

TEST(QuadraticOnAnInterval, DesignOfLargestDeterminant) {
    const Eigen::Matrix3d c = quadratic(1.0 / 3, 1.0 / 3, 1.0 / 3);
    EXPECT_NEAR(1 / c.determinant(), 4.0 / 27, 1e-10);
    EXPECT_NEAR(c.trace(), 9, 1e-9);
    double worst = 0;
    for (int i = -100; i <= 100; ++i) {
        const double x = i / 100.0;
        const Eigen::Vector3d f(1, x, x * x);
        worst = std::max(worst, f.dot(c * f));
    }
    EXPECT_NEAR(worst, 3, 1e-9);
}

TEST(QuadraticOnAnInterval, DesignOfSmallestTrace) {
    EXPECT_NEAR(quadratic(0.25, 0.5, 0.25).trace(), 8, 1e-9);
}

}  // namespace

#include "imaging/frame/adjust.h"

#include <gtest/gtest.h>

#include <cmath>

namespace imaging::frame {
namespace {

struct Weighted {
    double x, wx, y, wy;
};

/// K. Pearson, On lines and planes of closest fit, Phil. Mag. 2 (1901), with the weights of D.
/// York, Can. J. Phys. 44 (1966); copied from the test data of a public weighted total
/// least-squares routine that cites M. Lybanon, Am. J. Phys. 52 (1984).
constexpr Weighted kPearsonYork[] = {
    {0.0, 1000, 5.9, 1},  {0.9, 1000, 5.4, 1.8}, {1.8, 500, 4.4, 4}, {2.6, 800, 4.6, 8},
    {3.3, 200, 3.5, 20},  {4.4, 80, 3.7, 20},    {5.2, 60, 2.8, 70}, {6.1, 20, 2.8, 70},
    {6.5, 1.8, 2.4, 100}, {7.4, 1, 1.5, 500}};

std::optional<std::vector<Tracked>> onLine(const Eigen::VectorXd& z, const Eigen::VectorXd& p) {
    std::vector<Tracked> rows;
    const int n = static_cast<int>(z.size());
    const Tracked a = variable(p(0), n);
    const Tracked b = variable(p(1), n + 1);
    for (int i = 0; i < n; i += 2) {
        rows.push_back(variable(z(i + 1), i + 1) - a - b * variable(z(i), i));
    }
    return rows;
}

TEST(Adjust, LineWithErrorsInBothAxesIsPearsonsAndYorks) {
    Inputs inputs;
    for (const Weighted& w : kPearsonYork) {
        inputs.addNumber(w.x, 1 / std::sqrt(w.wx));
        inputs.addNumber(w.y, 1 / std::sqrt(w.wy));
    }
    const auto line = adjust(inputs, Eigen::Vector2d(5, -0.3), onLine);
    ASSERT_TRUE(line);
    // York (1966) prints a 5.4799, b −0.4805 and S/8 = 1.4832; digits beyond recomputed by a full
    // orthogonal-distance minimisation. u: D. York et al., Am. J. Phys. 72 (2004), at the adjusted
    // points.
    EXPECT_NEAR(line->parameters(0), 5.479910224, 1e-8);
    EXPECT_NEAR(line->parameters(1), -0.480533407, 1e-8);
    EXPECT_NEAR(line->chi2, 11.866353194, 1e-7);
    EXPECT_EQ(line->redundancy, 8);
    EXPECT_NEAR(std::sqrt(line->covariance(0, 0)), 0.294970736, 1e-7);
    EXPECT_NEAR(std::sqrt(line->covariance(1, 1)), 0.057985009, 1e-7);
    EXPECT_NEAR(line->redundancies.sum(), 8, 1e-6);
}

TEST(Adjust, ParametersFollowTheInputsAsTheirDerivativesSay) {
    Inputs inputs;
    Inputs nudged;
    const double step = 1e-5;
    const int which = 7;
    int at = 0;
    for (const Weighted& w : kPearsonYork) {
        for (const auto& [value, weight] : {std::pair(w.x, w.wx), std::pair(w.y, w.wy)}) {
            inputs.addNumber(value, 1 / std::sqrt(weight));
            nudged.addNumber(value + (at++ == which ? step : 0), 1 / std::sqrt(weight));
        }
    }
    const auto one = adjust(inputs, Eigen::Vector2d(5, -0.3), onLine);
    const auto two = adjust(nudged, Eigen::Vector2d(5, -0.3), onLine);
    ASSERT_TRUE(one && two);
    // First-order propagation: what residuals add to it is a few per cent here.
    const Eigen::VectorXd moved = (two->parameters - one->parameters) / step;
    EXPECT_LT((moved - one->byInputs.col(which)).norm(), 0.1 * moved.norm());
}

TEST(Adjust, TooFewConditionsAndSingularOnesAreRefused) {
    Inputs one;
    one.addNumber(1, 0.1);
    one.addNumber(2, 0.1);
    EXPECT_EQ(adjust(one, Eigen::Vector2d(0, 0), onLine).error().code, Code::NoSolution);
    Inputs same;  // two points at one x
    for (int i = 0; i < 3; ++i) {
        same.addNumber(1, 0);
        same.addNumber(2 + 0.1 * i, 0.1);
    }
    EXPECT_EQ(adjust(same, Eigen::Vector2d(0, 0), onLine).error().code, Code::NoSolution);
}

TEST(Adjust, SpreadKeepsTheLargestHalfWidthApart) {
    Inputs inputs;
    const int a = inputs.addNumber(10, 0.3);
    const int b = inputs.addNumber(20, 0, 1.5);
    const int c = inputs.addNumber(30, 0, 0.6);
    const auto spread = inputs.spreadOf(inputs.at(a) + 2 * inputs.at(b) - inputs.at(c));
    EXPECT_DOUBLE_EQ(spread.rectangular, 3);
    EXPECT_NEAR(spread.variance, 0.09 + 0.12, 1e-12);
    EXPECT_NEAR(spread.u(), std::sqrt(0.09 + 0.12 + 3), 1e-12);
}

}  // namespace
}  // namespace imaging::frame

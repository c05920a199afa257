#include "evidence-core/statistics/consensus.h"

#include "evidence-core/quantity/interval.h"

#include <Eigen/Cholesky>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace evidence::statistics {
namespace {

constexpr double kMedianToDeviation = 1.482602218505602;  // 1/Φ⁻¹(3/4)

/// Sums by weights 1/(u² + t).
struct Sums {
    double weights = 0;
    double squares = 0;  ///< of the weights
    double mean = 0;
    double q = 0;         ///< Σ w (x − mean)²
    double qSquares = 0;  ///< Σ w² (x − mean)²
};

Sums sumsAt(std::span<const Estimate> values, double t) {
    Sums s;
    // From the first value: the mean of large values with small differences keeps its digits.
    const double origin = values.front().value;
    double moment = 0;
    for (const auto& each : values) {
        const double w = 1 / (each.u * each.u + t);
        s.weights += w;
        s.squares += w * w;
        moment += w * (each.value - origin);
    }
    s.mean = origin + moment / s.weights;
    for (const auto& each : values) {
        const double w = 1 / (each.u * each.u + t);
        const double d = each.value - s.mean;
        s.q += w * d * d;
        s.qSquares += w * w * d * d;
    }
    return s;
}

WeightedMean withScatter(double mean, double uInternal, double q, std::size_t n) {
    WeightedMean out{mean, uInternal, uInternal, q, static_cast<int>(n) - 1, {}, {}};
    if (out.degrees > 0) {
        out.birge = std::sqrt(q / out.degrees);
        out.uExternal = uInternal * *out.birge;
        out.p = quantity::chiSquareProbability(q, out.degrees);
    }
    return out;
}

/// What the rule wants to be 0; falls with t.
double excess(std::span<const Estimate> values, BetweenRule rule, double t) {
    const Sums s = sumsAt(values, t);
    switch (rule) {
        case BetweenRule::DerSimonianLaird:
        case BetweenRule::MandelPaule:
            return s.q - static_cast<double>(values.size() - 1);
        case BetweenRule::MaximumLikelihood:
            return s.qSquares - s.weights;
        case BetweenRule::RestrictedLikelihood:
            return s.qSquares - s.weights + s.squares / s.weights;
    }
    return 0;
}

double betweenVariance(std::span<const Estimate> values, BetweenRule rule) {
    if (excess(values, rule, 0) <= 0) return 0;
    if (rule == BetweenRule::DerSimonianLaird) {
        const Sums s = sumsAt(values, 0);
        return excess(values, rule, 0) / (s.weights - s.squares / s.weights);
    }
    const auto at = [&](double t) { return excess(values, rule, t); };
    // The sum of squares about the mean is more than any rule can need.
    double high = 0;
    for (const auto& each : values) high += std::pow(each.value - values.front().value, 2);
    while (at(high) > 0) high *= 2;
    std::uintmax_t steps = 200;
    const auto [low, top] = boost::math::tools::toms748_solve(
        at, 0.0, high, boost::math::tools::eps_tolerance<double>(52), steps);
    return (low + top) / 2;
}

}  // namespace

WeightedMean weightedMean(std::span<const Estimate> values) {
    assert(!values.empty());
    const Sums s = sumsAt(values, 0);
    return withScatter(s.mean, 1 / std::sqrt(s.weights), s.q, values.size());
}

WeightedMean correlatedMean(std::span<const double> values, const Eigen::MatrixXd& covariance) {
    const auto n = static_cast<Eigen::Index>(values.size());
    assert(n > 0 && covariance.rows() == n && covariance.cols() == n);
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
    const double origin = values.front();
    Eigen::VectorXd x(n);
    for (Eigen::Index i = 0; i < n; ++i) x(i) = values[static_cast<std::size_t>(i)] - origin;
    const Eigen::VectorXd one = factor.matrixL().solve(Eigen::VectorXd::Ones(n));
    const Eigen::VectorXd white = factor.matrixL().solve(x);
    const double weights = one.squaredNorm();
    const double mean = one.dot(white) / weights;
    const double q = (white - mean * one).squaredNorm();
    return withScatter(origin + mean, 1 / std::sqrt(weights), q, values.size());
}

RandomEffects randomEffects(std::span<const Estimate> values, BetweenRule rule) {
    assert(values.size() >= 2);
    const double variance = betweenVariance(values, rule);
    const Sums s = sumsAt(values, variance);
    return {std::sqrt(variance), s.mean, 1 / std::sqrt(s.weights)};
}

double median(std::span<const double> values) {
    assert(!values.empty());
    std::vector<double> sorted(values.begin(), values.end());
    std::ranges::sort(sorted);
    const std::size_t half = sorted.size() / 2;
    return sorted.size() % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

double scaledMedianDeviation(std::span<const double> values) {
    const double middle = median(values);
    std::vector<double> off;
    off.reserve(values.size());
    for (const double x : values) off.push_back(std::abs(x - middle));
    return kMedianToDeviation * median(off);
}

double weightedMedian(std::span<const Estimate> values) {
    assert(!values.empty());
    std::vector<Estimate> sorted(values.begin(), values.end());
    std::ranges::sort(sorted, {}, [](const Estimate& e) { return std::pair(e.value, e.u); });
    double all = 0;
    for (const auto& each : sorted) all += 1 / (each.u * each.u);
    double sum = 0;
    for (const auto& each : sorted) {
        sum += 1 / (each.u * each.u);
        if (sum >= all / 2) return each.value;
    }
    return sorted.back().value;
}

double normalisedError(const Estimate& a, const Estimate& b) {
    const double u = std::hypot(a.u, b.u);
    assert(u > 0);
    return std::abs(a.value - b.value) / (quantity::normalQuantile(0.975) * u);
}

}  // namespace evidence::statistics

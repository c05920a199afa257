#include "evidence-core/quantity/interval.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <functional>
#include <numbers>
#include <vector>

namespace evidence::quantity {
namespace {

constexpr double kProbability = 0.95;
constexpr double kNormal95 = 1.959963984540054;  // normalQuantile(0.975), tested against it
constexpr std::size_t kMostExact = 5;
constexpr std::size_t kMostBesideMerged = 3;
constexpr double kMostMerged = 3.0;
constexpr double kSmallShare = 0.05;  // of the whole u: such a rectangle is merged
constexpr double kNegligible = 1e-9;  // of the whole u

struct Parts {
    double sigma = 0.0;              // all normal contributions
    std::vector<double> halfWidths;  // rectangular ones
};

// Splits triangles into two rectangles and merges the many small ones (see header).
Parts partsOf(std::span<const Component> components, double whole) {
    double variance = 0.0;
    std::vector<double> us;
    for (const Component& each : components) {
        if (each.shape == Shape::Normal) {
            variance += each.u * each.u;
        } else if (each.shape == Shape::Rectangular) {
            us.push_back(each.u);
        } else {
            us.insert(us.end(), 2, each.u * std::numbers::sqrt2 / 2.0);
        }
    }
    std::ranges::sort(us, std::greater<>());
    const auto wide = static_cast<std::size_t>(
        std::ranges::count_if(us, [&](double u) { return u > kSmallShare * whole; }));
    // The cost doubles with each rectangle: where some are merged anyway, fewer are kept.
    const std::size_t exact = wide <= kMostExact ? wide : kMostBesideMerged;
    double squares = 0.0;
    double fourths = 0.0;
    double sixths = 0.0;
    for (std::size_t i = exact; i < us.size(); ++i) {
        const double square = us[i] * us[i];
        squares += square;
        fourths += square * square;
        sixths += square * square * square;
    }
    us.resize(exact);
    // k equal rectangles have the rest's fourth cumulant (−1.2 Σu⁴) at any k, its sixth too at
    // k = (Σu⁴)³/(Σu⁶)²; by the inequality of power sums their variance never exceeds the rest's.
    double k = sixths > 0.0 ? std::floor(std::pow(fourths, 3) / (sixths * sixths) + 1e-9) : 0.0;
    k = std::clamp(k, 1.0, kMostMerged);
    const double equivalent = std::sqrt(std::sqrt(fourths / k));
    if (equivalent > kSmallShare * whole) {
        us.insert(us.end(), static_cast<std::size_t>(k), equivalent);
        variance += std::max(0.0, squares - k * equivalent * equivalent);
    } else {
        variance += squares;
    }
    Parts parts;
    parts.sigma = std::sqrt(variance);
    if (parts.sigma < kNegligible * whole) parts.sigma = 0.0;
    for (const double u : us) parts.halfWidths.push_back(u * std::numbers::sqrt3);
    return parts;
}

struct Integrals {
    double before = 0.0;  // (n−1)-fold
    double last = 0.0;    // n-fold
};

// n-fold integral of Φ(x/σ) from −∞, and the (n−1)-fold one; σ = 0: of the unit step.
// n·I_n(z) = z·I_{n−1}(z) + I_{n−2}(z) with I_0 = Φ, I_{−1} = φ, scaled by σ^n.
Integrals repeatedIntegrals(double x, double sigma, std::size_t n) {
    if (sigma == 0.0) {
        if (x <= 0.0) return {};
        double value = 1.0;
        double before = 0.0;
        for (std::size_t k = 1; k <= n; ++k) {
            before = value;
            value *= x / static_cast<double>(k);
        }
        return {before, value};
    }
    const double z = x / sigma;
    double before = std::exp(-0.5 * z * z) / (sigma * std::sqrt(2.0 * std::numbers::pi));
    double value = 0.5 * std::erfc(-z / std::numbers::sqrt2);
    for (std::size_t k = 1; k <= n; ++k) {
        const double next = (x * value + sigma * sigma * before) / static_cast<double>(k);
        before = value;
        value = next;
    }
    return {before, value};
}

struct Distribution {
    double density = 0.0;
    double cumulative = 0.0;
};

// Sum over the corners of the box of half-widths, with alternating signs.
Distribution distributionAt(double x, const Parts& parts) {
    const std::size_t n = parts.halfWidths.size();
    double scale = 1.0;
    for (const double a : parts.halfWidths) scale *= 2.0 * a;
    Distribution sum;
    for (std::size_t corner = 0; corner < (std::size_t{1} << n); ++corner) {
        double shifted = x;
        double sign = 1.0;
        for (std::size_t i = 0; i < n; ++i) {
            const bool plus = (corner >> i & 1u) == 0;
            shifted += plus ? parts.halfWidths[i] : -parts.halfWidths[i];
            if (!plus) sign = -sign;
        }
        const Integrals each = repeatedIntegrals(shifted, parts.sigma, n);
        sum.density += sign * each.before;
        sum.cumulative += sign * each.last;
    }
    return {sum.density / scale, sum.cumulative / scale};
}

}  // namespace

double combinedU(std::span<const Component> components) {
    double variance = 0.0;
    for (const Component& each : components) {
        assert(std::isfinite(each.u) && each.u >= 0.0);
        variance += each.u * each.u;
    }
    return std::sqrt(variance);
}

double halfWidth95(std::span<const Component> components) {
    const double whole = combinedU(components);
    if (whole == 0.0) return 0.0;
    const Parts parts = partsOf(components, whole);
    if (parts.halfWidths.empty()) return kNormal95 * parts.sigma;
    constexpr double kWanted = 0.5 + kProbability / 2.0;
    // Newton inside a bracket that always holds the answer. Chebyshev: 5 u covers 96 %.
    double low = 0.0;
    double high = 5.0 * whole;
    double x = kNormal95 * whole;
    for (int i = 0; i < 60; ++i) {
        const Distribution at = distributionAt(x, parts);
        const double excess = at.cumulative - kWanted;
        (excess > 0.0 ? high : low) = x;
        double next = x - excess / at.density;
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        const bool settled = std::abs(next - x) <= 1e-12 * whole;
        x = next;
        if (settled) break;
    }
    return x;
}

Interval coverage95(double mean, std::span<const Component> components) {
    const double half = halfWidth95(components);
    return {mean - half, mean + half};
}

Interval cutTo(Interval interval, std::optional<double> low, std::optional<double> high) {
    Interval cut = interval;
    if (low) cut.low = std::max(cut.low, *low);
    if (high) cut.high = std::min(cut.high, *high);
    return cut.low <= cut.high ? cut : interval;
}

double repeatFactor(int n) {
    assert(n >= 4);
    return std::sqrt((n - 1.0) / (n - 3.0));
}

double normalQuantile(double p) {
    assert(p > 0.0 && p < 1.0);
    return boost::math::quantile(boost::math::normal_distribution<double>(), p);
}

double chiSquareProbability(double chiSquare, int degrees) {
    assert(degrees >= 1 && chiSquare >= 0.0);
    return boost::math::gamma_q(0.5 * degrees, 0.5 * chiSquare);
}

double studentT(double p, double degrees) {
    assert(p > 0.0 && p < 1.0 && degrees > 0.0);
    return boost::math::quantile(boost::math::students_t_distribution<double>(degrees),
                                 0.5 + 0.5 * p);
}

}  // namespace evidence::quantity

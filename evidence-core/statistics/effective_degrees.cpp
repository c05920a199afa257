#include "evidence-core/statistics/effective_degrees.h"

#include "evidence-core/quantity/interval.h"

#include <cassert>
#include <cmath>

namespace evidence::statistics {
namespace {

double combined(std::span<const Contribution> contributions) {
    double variance = 0;
    for (const auto& each : contributions) variance += each.u * each.u;
    return std::sqrt(variance);
}

}  // namespace

double effectiveDegrees(std::span<const Contribution> contributions) {
    const double whole = combined(contributions);
    double sum = 0;
    for (const auto& each : contributions) {
        assert(each.degrees > 0);
        // In shares: fourth powers of very small or large units stay in range.
        if (each.u > 0) sum += std::pow(each.u / whole, 4) / each.degrees;
    }
    return sum > 0 ? 1 / sum : std::numeric_limits<double>::infinity();
}

std::optional<double> expandedUncertainty(std::span<const Contribution> contributions,
                                          double probability) {
    constexpr double kGuard = 1e-2;
    const double degrees = effectiveDegrees(contributions);
    const double u = combined(contributions);
    if (std::isinf(degrees)) return quantity::normalQuantile(0.5 + probability / 2) * u;
    const double whole = std::floor(degrees + kGuard);
    if (whole < 1) return std::nullopt;
    return quantity::studentT(probability, whole) * u;
}

}  // namespace evidence::statistics

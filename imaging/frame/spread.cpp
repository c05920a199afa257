#include "imaging/frame/spread.h"

#include <cmath>
#include <numbers>

namespace imaging::frame {
namespace {

constexpr double kNormal95 = 1.959963984540054;

/// Ψ(z) = ∫ Φ from −∞ to z.
double integralOfNormal(double z) {
    const double phi = std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
    return z * 0.5 * std::erfc(-z / std::numbers::sqrt2) + phi;
}

}  // namespace

double halfWidth95(double normal, double rectangular) {
    if (!(rectangular > 0)) {
        return kNormal95 * normal;
    }
    // So narrow a normal part is beyond the digits of the closed form.
    if (!(normal > 1e-6 * rectangular)) {
        return 0.95 * rectangular;
    }
    // So narrow a rectangular part differs from a normal one by less than 1e-8.
    if (rectangular < 0.01 * normal) {
        return kNormal95 * std::sqrt(normal * normal + rectangular * rectangular / 3);
    }
    const auto share = [normal, rectangular](double x) {
        return normal / (2 * rectangular) *
               (integralOfNormal((x + rectangular) / normal) -
                integralOfNormal((x - rectangular) / normal));
    };
    double low = 0;
    double high = kNormal95 * normal + rectangular;
    for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
        const double middle = 0.5 * (low + high);
        (share(middle) < 0.975 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace imaging::frame

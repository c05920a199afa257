#include "evidence-core/frame/unequal_stretch.h"

#include <cmath>

namespace evidence::frame {

std::optional<StretchRatio> stretchRatio(std::span<const KnownVector> known) {
    bool along = false;
    bool up = false;
    double nxx = 0, nxy = 0, nyy = 0, tx = 0, ty = 0;
    for (const auto& each : known) {
        (std::abs(each.dx) > std::abs(each.dy) ? along : up) = true;
        const double sigma = 2 * each.length * each.u;
        const double x = each.dx * each.dx / sigma;
        const double y = each.dy * each.dy / sigma;
        const double square = each.length * each.length / sigma;
        nxx += x * x;
        nxy += x * y;
        nyy += y * y;
        tx += x * square;
        ty += y * square;
    }
    // Without a length near each axis the scale along it hangs on the errors of small differences.
    if (!along || !up) return std::nullopt;
    // Relative to the product of its diagonal: 0 where all lie in one direction.
    constexpr double kOneDirection = 0.01;
    const double determinant = nxx * nyy - nxy * nxy;
    if (!(determinant > kOneDirection * nxx * nyy)) return std::nullopt;
    const double a = (nyy * tx - nxy * ty) / determinant;
    const double b = (nxx * ty - nxy * tx) / determinant;
    if (!(a > 0) || !(b > 0)) return std::nullopt;
    const double ratio = std::sqrt(a / b);
    const double relative =
        nyy / determinant / (a * a) + nxx / determinant / (b * b) + 2 * nxy / determinant / (a * b);
    return StretchRatio{ratio, ratio / 2 * std::sqrt(relative)};
}

}  // namespace evidence::frame

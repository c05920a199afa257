#include "app/desk/page/mark_spread.h"

#include <algorithm>
#include <cmath>

namespace app::desk::page {

namespace record = evidence::record;

namespace {

constexpr double kEllipse95 = 2.4477;  // √χ²₀.₉₅ with two degrees of freedom
constexpr double kTwoSided95 = 1.96;

/// Half axes of a 2 × 2 covariance, by its closed-form eigenvalues.
SpreadEllipse ellipseOf(const QPointF& centre, double xx, double xy, double yy) {
    const double mean = (xx + yy) / 2;
    const double apart = std::hypot((xx - yy) / 2, xy);
    return {centre, kEllipse95 * std::sqrt(std::max(mean + apart, 0.0)),
            kEllipse95 * std::sqrt(std::max(mean - apart, 0.0)), std::atan2(2 * xy, xx - yy) / 2};
}

bool holdsPoints(const std::vector<std::vector<double>>& covariance, std::size_t points) {
    return covariance.size() == 2 * points && std::ranges::all_of(covariance, [&](const auto& row) {
               return row.size() == 2 * points;
           });
}

}  // namespace

MarkSpread spreadOf(const record::Mark& mark, double defaultU) {
    MarkSpread spread;
    if (mark.fit && mark.fit->radius) {
        const auto& covariance = mark.fit->covariance;
        if (covariance.size() == 3 && covariance[2].size() == 3)
            spread.rim =
                SpreadRim{QPointF(mark.fit->centre.x, mark.fit->centre.y), *mark.fit->radius,
                          kTwoSided95 * std::sqrt(std::max(covariance[2][2], 0.0))};
        return spread;
    }
    if (mark.fit) return spread;
    const double variance = mark.uPx.value_or(defaultU) * mark.uPx.value_or(defaultU);
    const bool given = holdsPoints(mark.covariance, mark.points.size());
    for (std::size_t i = 0; i < mark.points.size(); ++i) {
        const QPointF centre(mark.points[i].x, mark.points[i].y);
        const auto& c = mark.covariance;
        spread.points.push_back(
            given ? ellipseOf(centre, c[2 * i][2 * i], c[2 * i][2 * i + 1], c[2 * i + 1][2 * i + 1])
                  : ellipseOf(centre, variance, 0, variance));
    }
    return spread;
}

}  // namespace app::desk::page

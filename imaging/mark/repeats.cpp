#include "imaging/mark/repeats.h"

#include <fmt/format.h>

#include <cmath>

namespace imaging::mark {

Result<RepeatedPicks> meanOfRepeats(const MarkRequest& request) {
    const std::size_t n = request.points.size();
    for (std::size_t i = 0; i < request.repeats.size(); ++i) {
        const auto& repeat = request.repeats[i];
        if (repeat.size() != n) {
            return refuse(
                Code::BadValue, fmt::format("/repeats/{}", i),
                fmt::format("a repeat picks the same {} point(s) again, not {}", n, repeat.size()));
        }
        for (const PixelPoint& p : repeat) {
            if (!p.allFinite()) {
                return refuse(Code::NotFinite, fmt::format("/repeats/{}", i),
                              "a coordinate is not a finite number");
            }
        }
    }
    const auto picks = static_cast<double>(request.repeats.size() + 1);
    RepeatedPicks mean;
    mean.points = request.points;
    for (const auto& repeat : request.repeats) {
        for (std::size_t i = 0; i < n; ++i) {
            mean.points[i] += repeat[i];
        }
    }
    double squares = 0;
    for (std::size_t i = 0; i < n; ++i) {
        mean.points[i] /= picks;
        squares += (request.points[i] - mean.points[i]).squaredNorm();
        for (const auto& repeat : request.repeats) {
            squares += (repeat[i] - mean.points[i]).squaredNorm();
        }
    }
    double freedom = (picks - 1) * 2 * static_cast<double>(n);
    if (freedom < 3) {
        const double placing = request.uPx.value_or(kPlacedU);
        squares += 2 * placing * placing;
        freedom += 2;
    }
    const double variance = squares / freedom / picks * freedom / (freedom - 2);
    const auto size = static_cast<Eigen::Index>(2 * n);
    mean.covariance = Eigen::MatrixXd::Identity(size, size) * std::max(variance, 1e-8);
    return mean;
}

}  // namespace imaging::mark

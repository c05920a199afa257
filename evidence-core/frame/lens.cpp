#include "evidence-core/frame/lens.h"

namespace evidence::frame {

Straightened straightened(const Lens& lens, const Point& pixel) {
    const double k1 = lens.parameters(2);
    const double k2 = lens.parameters(3);
    const Point away = pixel - Point(lens.parameters.head<2>());
    const double r2 = away.squaredNorm() / (lens.unit * lens.unit);
    const double factor = 1 + k1 * r2 + k2 * r2 * r2;
    Straightened result;
    result.at = Point(lens.parameters.head<2>()) + away * factor;
    // d factor / d away = (2 k1 + 4 k2 r²)·awayᵀ / unit²
    const double slope = (2 * k1 + 4 * k2 * r2) / (lens.unit * lens.unit);
    result.byPixel = factor * Eigen::Matrix2d::Identity() + slope * away * away.transpose();
    result.byLens.leftCols<2>() = Eigen::Matrix2d::Identity() - result.byPixel;
    result.byLens.col(2) = away * r2;
    result.byLens.col(3) = away * r2 * r2;
    return result;
}

bool unfolds(const Lens& lens, const Point& pixel) {
    const Point away = pixel - Point(lens.parameters.head<2>());
    const double r2 = away.squaredNorm() / (lens.unit * lens.unit);
    return 1 + 3 * lens.parameters(2) * r2 + 5 * lens.parameters(3) * r2 * r2 > 0.2;
}

}  // namespace evidence::frame

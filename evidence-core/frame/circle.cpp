#include "evidence-core/frame/circle.h"

#include <Eigen/Dense>

#include <cmath>

namespace evidence::frame {
namespace {

/// Algebraic start: x² + y² = 2 cx x + 2 cy y + k, about the centroid and in units of the spread.
std::optional<Eigen::Vector3d> algebraicCircle(std::span<const Point> rim) {
    Point mean = Point::Zero();
    for (const Point& p : rim) {
        mean += p;
    }
    mean /= static_cast<double>(rim.size());
    double spread = 0;
    for (const Point& p : rim) {
        spread = std::max(spread, (p - mean).norm());
    }
    if (!(spread > 0)) {
        return std::nullopt;
    }
    Eigen::MatrixX3d a(static_cast<Eigen::Index>(rim.size()), 3);
    Eigen::VectorXd b(a.rows());
    for (Eigen::Index i = 0; i < a.rows(); ++i) {
        const Point q = (rim[static_cast<std::size_t>(i)] - mean) / spread;
        a.row(i) << 2 * q.x(), 2 * q.y(), 1;
        b(i) = q.squaredNorm();
    }
    const Eigen::ColPivHouseholderQR<Eigen::MatrixX3d> qr(a);
    // Three points nearer a line than one part in 10⁷ of their spread have no circle worth the
    // name.
    const auto diagonal = qr.matrixR().diagonal().cwiseAbs();
    if (diagonal.minCoeff() < 1e-7 * diagonal.maxCoeff()) {
        return std::nullopt;
    }
    const Eigen::Vector3d x = qr.solve(b);
    const double r2 = x(2) + x.head<2>().squaredNorm();
    if (!(r2 > 0)) {
        return std::nullopt;
    }
    const Point centre = mean + spread * x.head<2>();
    return Eigen::Vector3d(centre.x(), centre.y(), spread * std::sqrt(r2));
}

struct Step {
    Eigen::Vector3d gradient = Eigen::Vector3d::Zero();
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();   ///< JᵀJ
    Eigen::Matrix3d hessian = Eigen::Matrix3d::Zero();  ///< with second derivatives
    double squares = 0;
};

std::optional<Step> evaluate(std::span<const Point> rim, const Eigen::Vector3d& circle) {
    Step step;
    for (const Point& p : rim) {
        const Point away = p - circle.head<2>();
        const double rho = away.norm();
        if (!(rho > 0)) {
            return std::nullopt;
        }
        const Point n = away / rho;
        const double residual = rho - circle(2);
        const Eigen::Vector3d by(-n.x(), -n.y(), -1);
        step.gradient += residual * by;
        step.normal += by * by.transpose();
        step.hessian.topLeftCorner<2, 2>() +=
            residual / rho * (Eigen::Matrix2d::Identity() - n * n.transpose());
        step.squares += residual * residual;
    }
    step.hessian += step.normal;
    return step;
}

}  // namespace

std::optional<RimCircle> circleThrough(std::span<const Point> rim) {
    if (rim.size() < 3) {
        return std::nullopt;
    }
    auto circle = algebraicCircle(rim);
    if (!circle) {
        return std::nullopt;
    }
    std::optional<Step> step;
    bool settled = false;
    for (int i = 0; i < 100 && !settled; ++i) {
        step = evaluate(rim, *circle);
        if (!step) {
            return std::nullopt;
        }
        const Eigen::Vector3d move = -step->normal.ldlt().solve(step->gradient);
        if (!move.allFinite()) {
            return std::nullopt;
        }
        *circle += move;
        settled = move.norm() < 1e-12 * (1 + circle->cwiseAbs().maxCoeff());
    }
    step = evaluate(rim, *circle);
    if (!settled || !step || !((*circle)(2) > 0)) {
        return std::nullopt;
    }
    RimCircle result;
    result.centre = circle->head<2>();
    result.radius = (*circle)(2);
    result.rms = std::sqrt(step->squares / static_cast<double>(rim.size()));
    // At the minimum gradient(θ, z) = 0, so dθ/dz = −H⁻¹ ∂gradient/∂z.
    Eigen::Matrix<double, 3, Eigen::Dynamic> cross(3, 2 * static_cast<Eigen::Index>(rim.size()));
    for (std::size_t i = 0; i < rim.size(); ++i) {
        const Point away = rim[i] - result.centre;
        const double rho = away.norm();
        const Point n = away / rho;
        const double residual = rho - result.radius;
        Eigen::Matrix<double, 3, 2> block;
        block.topRows<2>() =
            -n * n.transpose() - residual / rho * (Eigen::Matrix2d::Identity() - n * n.transpose());
        block.row(2) = -n.transpose();
        cross.middleCols<2>(2 * static_cast<Eigen::Index>(i)) = block;
    }
    result.jacobian = -step->hessian.fullPivLu().solve(cross);
    if (!result.jacobian.allFinite()) {
        return std::nullopt;
    }
    return result;
}

}  // namespace evidence::frame

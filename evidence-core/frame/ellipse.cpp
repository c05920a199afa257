#include "evidence-core/frame/ellipse.h"

#include "evidence-core/frame/circle.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace evidence::frame {
namespace {

using Vector5 = Eigen::Matrix<double, 5, 1>;
using Matrix5 = Eigen::Matrix<double, 5, 5>;
constexpr double kPi = std::numbers::pi;

Ellipse ellipseOf(const Vector5& p) {
    return {{p(0), p(1)}, p(2), p(3), p(4)};
}

Vector5 vectorOf(const Ellipse& e) {
    Vector5 p;
    p << e.centre, e.a, e.b, e.angle;
    return p;
}

/// a ≥ b > 0, angle in −π/2 … π/2.
Ellipse ordered(Ellipse e) {
    e.a = std::abs(e.a);
    e.b = std::abs(e.b);
    if (e.a < e.b) {
        std::swap(e.a, e.b);
        e.angle += kPi / 2;
    }
    e.angle = std::remainder(e.angle, kPi);
    return e;
}

/// Foot by Newton's method on the stationarity of the distance, from `t`. The second derivative is
/// kept positive, so that a maximum is never taken.
double footFrom(const Ellipse& e, const Point& p, double t) {
    const double c = std::cos(e.angle);
    const double s = std::sin(e.angle);
    const Point away = p - e.centre;
    const double x = c * away.x() + s * away.y();
    const double y = -s * away.x() + c * away.y();
    for (int i = 0; i < 12; ++i) {
        const double ct = std::cos(t);
        const double st = std::sin(t);
        // f = ½|q − p|², q = (a cos t, b sin t)
        const double slope = (e.b * e.b - e.a * e.a) * ct * st + x * e.a * st - y * e.b * ct;
        const double bend =
            (e.b * e.b - e.a * e.a) * (ct * ct - st * st) + x * e.a * ct + y * e.b * st;
        const double least = 0.1 * e.b * e.b;
        const double step = std::clamp(slope / std::max(bend, least), -0.5, 0.5);
        t -= step;
        if (std::abs(step) < 1e-9) {
            break;
        }
    }
    return t;
}

struct Step {
    Matrix5 normal = Matrix5::Zero();
    Vector5 gradient = Vector5::Zero();
    double squares = 0;
};

/// Distance of a point square to the rim (outward positive) and its derivatives by the ellipse.
double distanceAt(const Ellipse& e, const Point& p, double t, Vector5* by, Point* normal) {
    const double c = std::cos(e.angle);
    const double s = std::sin(e.angle);
    const double dx = e.a * std::cos(t);
    const double dy = e.b * std::sin(t);
    const Point q = e.centre + Point(c * dx - s * dy, s * dx + c * dy);
    const double size = std::hypot(std::cos(t) / e.a, std::sin(t) / e.b);
    const double nx = std::cos(t) / e.a / size;
    const double ny = std::sin(t) / e.b / size;
    const Point n(c * nx - s * ny, s * nx + c * ny);
    if (by != nullptr) {
        *by << -n.x(), -n.y(), -nx * std::cos(t), -ny * std::sin(t),
            -n.dot(Point(-s * dx - c * dy, c * dx - s * dy));
    }
    if (normal != nullptr) {
        *normal = n;
    }
    return n.dot(p - q);
}

class Fit {
  public:
    Fit(std::span<const Point> rim, std::span<const double> weights)
        : m_rim(rim), m_weights(weights), m_feet(rim.size()) {}

    [[nodiscard]] double weight(std::size_t i) const {
        return m_weights.empty() ? 1 : m_weights[i];
    }

    /// Levenberg-Marquardt from `start`; none where it leaves the ellipses.
    std::optional<Ellipse> descend(const Ellipse& start, double& squares) {
        for (std::size_t i = 0; i < m_rim.size(); ++i) {
            m_feet[i] = start.foot(m_rim[i]);
        }
        Vector5 p = vectorOf(start);
        Step step = evaluate(ellipseOf(p), m_feet);
        double damping = 1e-3;
        std::vector<double> feet(m_rim.size());
        for (int i = 0; i < 200; ++i) {
            Matrix5 damped = step.normal;
            damped.diagonal() += damping * step.normal.diagonal() +
                                 Vector5::Constant(1e-14 * step.normal.diagonal().maxCoeff());
            const Vector5 move = -damped.ldlt().solve(step.gradient);
            const Vector5 next = p + move;
            const double size = next(2) + next(3);
            if (!next.allFinite() || !(next(2) > 1e-6 * size) || !(next(3) > 1e-6 * size)) {
                damping *= 10;
                if (damping > 1e10) {
                    return std::nullopt;
                }
                continue;
            }
            feet = m_feet;
            const Step there = evaluate(ellipseOf(next), feet);
            if (there.squares <= step.squares * (1 + 1e-14)) {
                const bool still = move.head<4>().norm() < 1e-10 * size && damping < 1e-2;
                p = next;
                step = there;
                m_feet = feet;
                damping = std::max(1e-12, 0.2 * damping);
                if (still) {
                    break;
                }
            } else {
                damping *= 6;
                if (damping > 1e12) {
                    break;
                }
            }
        }
        squares = step.squares;
        return ordered(ellipseOf(p));
    }

  private:
    Step evaluate(const Ellipse& e, std::vector<double>& feet) const {
        Step step;
        for (std::size_t i = 0; i < m_rim.size(); ++i) {
            feet[i] = footFrom(e, m_rim[i], feet[i]);
            Vector5 by;
            const double d = distanceAt(e, m_rim[i], feet[i], &by, nullptr);
            const double w = weight(i);
            step.normal.selfadjointView<Eigen::Lower>().rankUpdate(by, w);
            step.gradient += w * d * by;
            step.squares += w * d * d;
        }
        step.normal = Matrix5(step.normal.selfadjointView<Eigen::Lower>());
        return step;
    }

    std::span<const Point> m_rim;
    std::span<const double> m_weights;
    std::vector<double> m_feet;
};

/// Direct fit of an ellipse (least algebraic distance under 4AC − B² = 1), points centred and
/// scaled.
std::optional<Ellipse> directFit(std::span<const Point> rim) {
    Point mean = Point::Zero();
    for (const Point& p : rim) {
        mean += p / static_cast<double>(rim.size());
    }
    double size = 0;
    for (const Point& p : rim) {
        size = std::max(size, (p - mean).norm());
    }
    if (!(size > 0)) {
        return std::nullopt;
    }
    Eigen::Matrix3d s1 = Eigen::Matrix3d::Zero();
    Eigen::Matrix3d s2 = Eigen::Matrix3d::Zero();
    Eigen::Matrix3d s3 = Eigen::Matrix3d::Zero();
    for (const Point& p : rim) {
        const Point q = (p - mean) / size;
        const Eigen::Vector3d second(q.x() * q.x(), q.x() * q.y(), q.y() * q.y());
        const Eigen::Vector3d first(q.x(), q.y(), 1);
        s1 += second * second.transpose();
        s2 += second * first.transpose();
        s3 += first * first.transpose();
    }
    const Eigen::FullPivLU<Eigen::Matrix3d> lu(s3);
    if (!lu.isInvertible()) {
        return std::nullopt;
    }
    const Eigen::Matrix3d t = -lu.solve(Eigen::Matrix3d(s2.transpose()));
    const Eigen::Matrix3d reduced = s1 + s2 * t;
    Eigen::Matrix3d m;
    m.row(0) = reduced.row(2) / 2;
    m.row(1) = -reduced.row(1);
    m.row(2) = reduced.row(0) / 2;
    const Eigen::EigenSolver<Eigen::Matrix3d> eigen(m);
    for (int k = 0; k < 3; ++k) {
        const Eigen::Vector3d v = eigen.eigenvectors().col(k).real();
        if (!(4 * v(0) * v(2) - v(1) * v(1) > 0)) {
            continue;
        }
        const Eigen::Vector3d w = t * v;
        Eigen::Matrix2d quadratic;
        quadratic << v(0), v(1) / 2, v(1) / 2, v(2);
        const Point middle = -0.5 * quadratic.inverse() * w.head<2>();
        const double level = middle.dot(quadratic * middle) - w(2);
        const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> axes(quadratic / level);
        if (!(axes.eigenvalues()(0) > 0)) {
            return std::nullopt;
        }
        const Point major = axes.eigenvectors().col(0);
        return ordered({mean + size * middle, size / std::sqrt(axes.eigenvalues()(0)),
                        size / std::sqrt(axes.eigenvalues()(1)), std::atan2(major.y(), major.x())});
    }
    return std::nullopt;
}

}  // namespace

Point Ellipse::at(double t) const {
    const double dx = a * std::cos(t);
    const double dy = b * std::sin(t);
    return centre + Point(std::cos(angle) * dx - std::sin(angle) * dy,
                          std::sin(angle) * dx + std::cos(angle) * dy);
}

Point Ellipse::normal(double t) const {
    Point n;
    static_cast<void>(distanceAt(*this, centre, t, nullptr, &n));
    return n;
}

double Ellipse::curvatureRadius(double t) const {
    return std::pow(std::hypot(a * std::sin(t), b * std::cos(t)), 3) / (a * b);
}

double Ellipse::foot(const Point& p) const {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const Point away = p - centre;
    const double x = c * away.x() + s * away.y();
    const double y = -s * away.x() + c * away.y();
    return footFrom(*this, p, std::atan2(a * y, b * x));
}

std::optional<RimEllipse> ellipseThrough(std::span<const Point> rim,
                                         std::span<const double> weights) {
    if (rim.size() < 5) {
        return std::nullopt;
    }
    Fit fit(rim, weights);
    std::optional<Ellipse> best;
    double least = 0;
    const auto attempt = [&](const Ellipse& start) {
        double squares = 0;
        const auto found = fit.descend(start, squares);
        if (found && (!best || squares < least)) {
            best = found;
            least = squares;
        }
    };
    if (const auto direct = directFit(rim)) {
        attempt(*direct);
    }
    // A direct fit that is as good as any needs no second start.
    const double perPoint = least / static_cast<double>(rim.size());
    if (!best || perPoint > 1e-4 * best->b * best->b) {
        if (const auto circle = circleThrough(rim)) {
            attempt({circle->centre, 1.05 * circle->radius, 0.95 * circle->radius, 0});
            attempt({circle->centre, 1.3 * circle->radius, 0.8 * circle->radius, kPi / 4});
        }
    }
    if (!best || !(best->a < 1e7)) {
        return std::nullopt;
    }
    RimEllipse result;
    result.ellipse = *best;
    result.squares = least;
    Matrix5 normal = Matrix5::Zero();
    const auto n = static_cast<Eigen::Index>(rim.size());
    Eigen::Matrix<double, 5, Eigen::Dynamic> cross(5, 2 * n);
    std::vector<double> feet;
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double t = best->foot(rim[k]);
        Vector5 by;
        Point outward;
        const double d = distanceAt(*best, rim[k], t, &by, &outward);
        const double w = fit.weight(k);
        normal += w * by * by.transpose();
        cross.middleCols<2>(2 * i) = -w * by * outward.transpose();
        result.rms += d * d / static_cast<double>(n);
        feet.push_back(std::remainder(t, 2 * kPi));
    }
    result.rms = std::sqrt(result.rms);
    // Scaled alike; the angle of a circle is left out, for nothing says it.
    Vector5 scale = normal.diagonal().cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
    const Matrix5 scaled = scale.asDiagonal() * normal * scale.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<Matrix5> eigen(scaled);
    Matrix5 inverse = Matrix5::Zero();
    for (Eigen::Index i = 0; i < 5; ++i) {
        if (eigen.eigenvalues()(i) > 1e-10) {
            inverse += eigen.eigenvectors().col(i) * eigen.eigenvectors().col(i).transpose() /
                       eigen.eigenvalues()(i);
        }
    }
    result.covariance = scale.asDiagonal() * inverse * scale.asDiagonal();
    result.jacobian = result.covariance * cross;
    std::sort(feet.begin(), feet.end());
    double gap = feet.front() + 2 * kPi - feet.back();
    for (std::size_t i = 1; i < feet.size(); ++i) {
        gap = std::max(gap, feet[i] - feet[i - 1]);
    }
    result.covered = 2 * kPi - gap;
    return result;
}

}  // namespace evidence::frame

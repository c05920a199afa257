#include "evidence-core/frame/camera_map.h"

#include "evidence-core/frame/dual.h"

#include <Eigen/Dense>

#include <cmath>

namespace evidence::frame {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

Matrix3d skew(const Vector3d& v) {
    Matrix3d m;
    m << 0, -v.z(), v.y(), v.z(), 0, -v.x(), -v.y(), v.x(), 0;
    return m;
}

Matrix3d exponential(const Vector3d& omega) {
    const double angle = omega.norm();
    if (angle < 1e-12) {
        return Matrix3d::Identity() + skew(omega);
    }
    return Eigen::AngleAxisd(angle, omega / angle).toRotationMatrix();
}

/// J with d(exp([ω])·v)/dω = −[exp([ω])·v]×·J: the left Jacobian of the rotation group.
Matrix3d leftJacobian(const Vector3d& omega) {
    const double angle = omega.norm();
    const Matrix3d s = skew(omega);
    if (angle < 1e-5) {
        return Matrix3d::Identity() + 0.5 * s + s * s / 6;
    }
    const double a2 = angle * angle;
    return Matrix3d::Identity() + (1 - std::cos(angle)) / a2 * s +
           (angle - std::sin(angle)) / (a2 * angle) * s * s;
}

/// A vector turned into the camera, with its derivatives by ω.
struct Turned {
    Vector3d at;
    Matrix3d byOmega;
};

Turned turned(const CameraMap& map, const Vector3d& v) {
    const Vector3d omega = map.parameters.head<3>();
    Turned result;
    result.at = exponential(omega) * (map.start * v);
    result.byOmega = -skew(result.at) * leftJacobian(omega);
    return result;
}

}  // namespace

Matrix3d CameraMap::rotation() const {
    return exponential(parameters.head<3>()) * start;
}

double CameraMap::focal() const {
    return std::exp(parameters(LogF));
}

std::optional<Projection> projected(const CameraMap& map, const Vector3d& x) {
    const Turned y = turned(map, x - map.centre());
    const double f = map.focal();
    if (!(y.at.z() > 1e-9 * (1 + y.at.norm()))) {
        return std::nullopt;
    }
    const Point direction = y.at.head<2>() / y.at.z();
    Eigen::Matrix<double, 2, 3> byY;
    byY << f / y.at.z(), 0, -f * direction.x() / y.at.z(), 0, f / y.at.z(),
        -f * direction.y() / y.at.z();
    Projection result;
    result.pixel = map.parameters.tail<2>() + f * direction;
    result.byPoint = byY * map.rotation();
    result.byModel.leftCols<3>() = byY * y.byOmega;
    result.byModel.middleCols<3>(CameraMap::Centre) = -result.byPoint;
    result.byModel.col(CameraMap::LogF) = f * direction;
    result.byModel.rightCols<2>().setIdentity();
    return result;
}

std::optional<SpacePlane> planeThrough(const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    const Vector3d u = b - a;
    const Vector3d v = c - a;
    if (!(u.cross(v).norm() > 1e-9 * (u.squaredNorm() + v.squaredNorm()))) {
        return std::nullopt;
    }
    SpacePlane plane;
    plane.origin = a;
    plane.first = u.normalized();
    plane.second = (v - plane.first.dot(v) * plane.first).normalized();
    return plane;
}

std::optional<Position<CameraMap::kParameters>> carried(const CameraMap& map,
                                                        const SpacePlane& plane,
                                                        const Point& pixel) {
    // Solve Rᵀ-free: y = (d, 1)·λ = R(o + ξ₁e₁ + ξ₂e₂ − C), a linear 3×3 system in ξ₁, ξ₂, λ.
    const double f = map.focal();
    const Vector3d ray((pixel - Point(map.parameters.tail<2>())).x() / f,
                       (pixel - Point(map.parameters.tail<2>())).y() / f, 1);
    const Turned e1 = turned(map, plane.first);
    const Turned e2 = turned(map, plane.second);
    const Turned o = turned(map, plane.origin - map.centre());
    Matrix3d system;
    system << e1.at, e2.at, -ray;
    const Vector3d normal = e1.at.cross(e2.at);
    if (!(std::abs(normal.dot(ray)) > 0.02 * ray.norm())) {
        return std::nullopt;
    }
    const Matrix3d inverse = system.inverse();
    const Vector3d solution = -inverse * o.at;
    if (!(solution.z() > 0)) {
        return std::nullopt;
    }
    // system·(ξ, λ) + o = 0: derivatives of the solution from those of its terms.
    Eigen::Matrix<double, 3, CameraMap::kParameters> byModel =
        Eigen::Matrix<double, 3, CameraMap::kParameters>::Zero();
    byModel.leftCols<3>() = solution.x() * e1.byOmega + solution.y() * e2.byOmega + o.byOmega;
    byModel.middleCols<3>(CameraMap::Centre) = -map.rotation();
    byModel.col(CameraMap::LogF) << solution.z() * ray.x(), solution.z() * ray.y(), 0;
    byModel.rightCols<2>() = Eigen::Matrix<double, 3, 2>::Identity() * (solution.z() / f);
    Position<CameraMap::kParameters> position;
    position.at = solution.head<2>();
    position.byModel = (-inverse * byModel).topRows<2>();
    position.byPixel = (inverse.leftCols<2>() * (solution.z() / f)).topRows<2>();
    return position;
}

Derived<CameraMap::kParameters> distanceTo(const CameraMap& map, const SpacePlane& plane) {
    const Vector3d normal = plane.first.cross(plane.second);
    const double height = normal.dot(map.centre() - plane.origin);
    Derived<CameraMap::kParameters> result;
    result.value = std::abs(height);
    result.jacobian.segment<3>(CameraMap::Centre) = (height < 0 ? -1.0 : 1.0) * normal.transpose();
    return result;
}

Derived<13> offDirection(const CameraMap& map, const Vector3d& direction, const Point& p,
                         const Point& q) {
    using T = Dual<13>;
    const Turned d = turned(map, direction);
    const auto component = [&d](int i) {
        T value(d.at(i), T::DerType::Zero());
        value.derivatives().head<3>() = d.byOmega.row(i).transpose();
        return value;
    };
    const T dx = component(0);
    const T dy = component(1);
    const T dz = component(2);
    const T f = exp(dualVariable<13>(map.parameters(CameraMap::LogF), CameraMap::LogF));
    const T cx = dualVariable<13>(map.parameters(7), 7);
    const T cy = dualVariable<13>(map.parameters(8), 8);
    const T px = dualVariable<13>(p.x(), 9);
    const T py = dualVariable<13>(p.y(), 10);
    const T qx = dualVariable<13>(q.x(), 11);
    const T qy = dualVariable<13>(q.y(), 12);
    // From the middle to the vanishing point pp + f·(dx, dy)/dz, times dz.
    const T mx = (px + qx) * 0.5 - cx;
    const T my = (py + qy) * 0.5 - cy;
    const T vx = f * dx - dz * mx;
    const T vy = f * dy - dz * my;
    const T ex = qx - px;
    const T ey = qy - py;
    return derivedOf<13>(T((ex * vy - ey * vx) / sqrt((ex * ex + ey * ey) * (vx * vx + vy * vy))));
}

}  // namespace evidence::frame

#include "evidence-core/frame/pixel_geometry.h"

#include <cmath>
#include <unsupported/Eigen/AutoDiff>

namespace evidence::frame {
namespace {

template <int N>
using Dual = Eigen::AutoDiffScalar<Eigen::Matrix<double, N, 1>>;

/// Points of dual numbers; plain pairs, because Eigen matrices of dual numbers compile slowly.
template <int N>
struct DualPoint {
    Dual<N> x;
    Dual<N> y;
};

template <int N>
DualPoint<N> variable(const Point& p, int first) {
    return {Dual<N>(p.x(), N, first), Dual<N>(p.y(), N, first + 1)};
}

template <int N>
DualPoint<N> minus(const DualPoint<N>& a, const DualPoint<N>& b) {
    return {a.x - b.x, a.y - b.y};
}

template <int N>
Dual<N> dot(const DualPoint<N>& a, const DualPoint<N>& b) {
    return a.x * b.x + a.y * b.y;
}

template <int N>
Dual<N> cross(const DualPoint<N>& a, const DualPoint<N>& b) {
    return a.x * b.y - a.y * b.x;
}

template <int N>
DualPoint<N> unit(const DualPoint<N>& a) {
    const Dual<N> length = sqrt(dot(a, a));
    return {a.x / length, a.y / length};
}

template <int N>
Dual<N> smaller(const Dual<N>& a, const Dual<N>& b) {
    return b.value() < a.value() ? b : a;
}

template <int N>
Dual<N> greater(const Dual<N>& a, const Dual<N>& b) {
    return b.value() > a.value() ? b : a;
}

template <int N>
Derived<N> positive(const Dual<N>& signedValue) {
    Derived<N> result;
    result.value = std::abs(signedValue.value());
    if (signedValue.value() > 0) {
        result.jacobian = signedValue.derivatives().transpose();
    } else if (signedValue.value() < 0) {
        result.jacobian = -signedValue.derivatives().transpose();
    }
    return result;
}

}  // namespace

Derived<4> pointToPoint(const Point& p, const Point& q) {
    const Point difference = q - p;
    Derived<4> result;
    result.value = std::hypot(difference.x(), difference.y());
    if (result.value > 0) {
        const Eigen::RowVector2d direction = difference.transpose() / result.value;
        result.jacobian << -direction, direction;
    }
    return result;
}

Derived<6> pointToLine(const Point& p, const Point& a, const Point& b) {
    const auto point = variable<6>(p, 0);
    const auto first = variable<6>(a, 2);
    const auto second = variable<6>(b, 4);
    return positive<6>(cross(unit(minus(second, first)), minus(point, first)));
}

Derived<8> lineToLine(const Point& a, const Point& b, const Point& c, const Point& d) {
    const auto a1 = variable<8>(a, 0);
    const auto b1 = variable<8>(b, 2);
    const auto c2 = variable<8>(c, 4);
    const auto d2 = variable<8>(d, 6);
    const auto u1 = unit(minus(b1, a1));
    auto u2 = unit(minus(d2, c2));
    if (dot(u1, u2).value() < 0) {
        u2 = {-u2.x, -u2.y};
    }
    const auto mean = unit(DualPoint<8>{u1.x + u2.x, u1.y + u2.y});
    const Dual<8> ta = dot(a1, mean);
    const Dual<8> tb = dot(b1, mean);
    const Dual<8> tc = dot(c2, mean);
    const Dual<8> td = dot(d2, mean);
    const Dual<8> from = greater<8>(smaller<8>(ta, tb), smaller<8>(tc, td));
    const Dual<8> to = smaller<8>(greater<8>(ta, tb), greater<8>(tc, td));
    const Dual<8> middle = (from + to) * 0.5;
    // Where each line stands beside the mean direction at that middle.
    const Dual<8> off1 = cross(mean, a1) + cross(mean, u1) * (middle - ta) / dot(mean, u1);
    const Dual<8> off2 = cross(mean, c2) + cross(mean, u2) * (middle - tc) / dot(mean, u2);
    return positive<8>(off2 - off1);
}

Derived<8> angleBetween(const Point& a, const Point& b, const Point& c, const Point& d) {
    const Point first = b - a;
    const Point second = d - c;
    const double turn = first.x() * second.y() - first.y() * second.x();
    Derived<8> result;
    result.value = std::atan2(std::abs(turn), first.dot(second));
    if (turn == 0) {
        return result;
    }
    // d(direction angle of v) = (−v.y dvx + v.x dvy) / |v|²
    const double sign = turn > 0 ? 1 : -1;
    const Eigen::RowVector2d byFirst =
        -sign * Eigen::RowVector2d(-first.y(), first.x()) / first.squaredNorm();
    const Eigen::RowVector2d bySecond =
        sign * Eigen::RowVector2d(-second.y(), second.x()) / second.squaredNorm();
    result.jacobian << -byFirst, byFirst, -bySecond, bySecond;
    return result;
}

namespace {

/// A row by the turn of both directions: d(angle of v) = (−v.y dvx + v.x dvy) / |v|².
Eigen::Matrix<double, 1, 8> byTurn(const Point& first, const Point& second, double slope) {
    const Eigen::RowVector2d one =
        slope * Eigen::RowVector2d(-first.y(), first.x()) / first.squaredNorm();
    const Eigen::RowVector2d two =
        slope * Eigen::RowVector2d(-second.y(), second.x()) / second.squaredNorm();
    Eigen::Matrix<double, 1, 8> row;
    row << one, -one, -two, two;
    return row;
}

}  // namespace

Derived<8> sineBetween(const Point& a, const Point& b, const Point& c, const Point& d) {
    const Point first = b - a;
    const Point second = d - c;
    const double size = first.norm() * second.norm();
    Derived<8> result;
    result.value = (first.x() * second.y() - first.y() * second.x()) / size;
    result.jacobian = byTurn(first, second, first.dot(second) / size);
    return result;
}

Derived<8> cosineBetween(const Point& a, const Point& b, const Point& c, const Point& d) {
    const Point first = b - a;
    const Point second = d - c;
    const double size = first.norm() * second.norm();
    Derived<8> result;
    result.value = first.dot(second) / size;
    result.jacobian =
        byTurn(first, second, -(first.x() * second.y() - first.y() * second.x()) / size);
    return result;
}

}  // namespace evidence::frame

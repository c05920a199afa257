#pragma once

#include "evidence-core/frame/derived.h"

#include <unsupported/Eigen/AutoDiff>

/// Dual numbers for equations whose derivatives would be long by hand. Private to this room.
namespace evidence::frame {

template <int N>
using Dual = Eigen::AutoDiffScalar<Eigen::Matrix<double, N, 1>>;

/// The `index`-th of N variables.
template <int N>
Dual<N> dualVariable(double value, int index) {
    return Dual<N>(value, N, index);
}

template <int N>
Derived<N> derivedOf(const Dual<N>& dual) {
    Derived<N> result;
    result.value = dual.value();
    if (dual.derivatives().size() == N) {
        result.jacobian = dual.derivatives().transpose();
    }
    return result;
}

/// Plain triples, because Eigen matrices of dual numbers compile slowly.
template <class T>
struct Triple {
    T x;
    T y;
    T z;
};

template <class T>
Triple<T> crossed(const Triple<T>& a, const Triple<T>& b) {
    return {T(a.y * b.z - a.z * b.y), T(a.z * b.x - a.x * b.z), T(a.x * b.y - a.y * b.x)};
}

template <class T>
T dotted(const Triple<T>& a, const Triple<T>& b) {
    return T(a.x * b.x + a.y * b.y + a.z * b.z);
}

}  // namespace evidence::frame

#pragma once

#include <Eigen/Core>

namespace evidence::frame {

/// A number and its derivatives by `N` parameters (row of 1×N, in the order the function names).
/// For z ~ (z0, Σ): u²(value) = jacobian · Σ · jacobianᵀ (JCGM 100:2008, 5.2.2, eq. (13)).
template <int N>
struct Derived {
    double value = 0;
    Eigen::Matrix<double, 1, N> jacobian = Eigen::Matrix<double, 1, N>::Zero();
};

}  // namespace evidence::frame

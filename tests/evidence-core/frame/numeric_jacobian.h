#pragma once

#include <Eigen/Core>

#include <cmath>

namespace evidence::frame::test {

/// Central differences of a function of a vector: what every analytic Jacobian is held against.
template <class F>
Eigen::VectorXd numericJacobian(const F& f, const Eigen::VectorXd& at) {
    Eigen::VectorXd result(at.size());
    for (Eigen::Index i = 0; i < at.size(); ++i) {
        const double h = 1e-5 * (1 + std::abs(at(i)));
        Eigen::VectorXd up = at;
        Eigen::VectorXd down = at;
        up(i) += h;
        down(i) -= h;
        result(i) = (f(up) - f(down)) / (2 * h);
    }
    return result;
}

/// The same for a function of several values: rows are values, columns variables.
template <class F>
Eigen::MatrixXd numericJacobianRows(const F& f, const Eigen::VectorXd& at) {
    Eigen::MatrixXd result(f(at).size(), at.size());
    for (Eigen::Index i = 0; i < at.size(); ++i) {
        const double h = 1e-6 * (1 + std::abs(at(i)));
        Eigen::VectorXd up = at;
        Eigen::VectorXd down = at;
        up(i) += h;
        down(i) -= h;
        result.col(i) = (f(up) - f(down)) / (2 * h);
    }
    return result;
}

/// Greatest difference of two matrices as a share of the greatest element.
inline double differenceOf(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    return (a - b).cwiseAbs().maxCoeff() / (1e-300 + b.cwiseAbs().maxCoeff());
}

}  // namespace evidence::frame::test

#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <optional>
#include <utility>
#include <vector>

namespace evidence::network {

using SparseRows = Eigen::SparseMatrix<double, Eigen::RowMajor>;
/// A few entries of a vector: place and value, each place at most once.
using SparseVector = std::vector<std::pair<Eigen::Index, double>>;

[[nodiscard]] SparseVector entriesOf(const SparseRows& matrix, Eigen::Index row);

/// P N Pᵀ = L Lᵀ of a normal matrix N = BᵀB, with a fill-reducing order.
///
/// L is kept by columns, the diagonal first in each, in a pattern that is closed: where rows i < k
/// stand in one column, row k stands in column i. The first row below the diagonal is the column's
/// parent in the elimination tree. Source: T. A. Davis, Direct Methods for Sparse Linear Systems,
/// 2006, ch. 3 and 4.
struct TriangularFactor {
    Eigen::VectorXi order;              ///< place in L → column of N
    Eigen::VectorXi place;              ///< column of N → place in L
    Eigen::SparseMatrix<double> lower;  ///< compressed
    /// Ratio of the least to the greatest squared pivot: a cheap bound on 1 / condition of N.
    double spread = 1;

    [[nodiscard]] Eigen::Index size() const { return lower.cols(); }
    /// N⁻¹ b.
    [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& b) const;
    /// L⁻ᵀ y, carried back to the columns of N: of a standard normal y, a draw with covariance N⁻¹.
    [[nodiscard]] Eigen::VectorXd colour(const Eigen::VectorXd& y) const;
    /// aᵀ N⁻¹ b, by the paths of a and b through the elimination tree alone.
    [[nodiscard]] double product(const SparseVector& a, const SparseVector& b) const;
    /// L⁻¹ P b by ascending places in L. Follows the elimination tree from what is in b as long as
    /// entries count: what falls below `drop` times the largest is left out.
    [[nodiscard]] SparseVector forward(const SparseVector& b, double drop = kRounding) const;

    static constexpr double kRounding = 1e-15;
};

enum class Factorisation {
    Cholesky,    ///< of BᵀB, supernodal where that pays (CHOLMOD)
    Orthogonal,  ///< QR of B (SuiteSparseQR): squares no condition
};

/// Absent where B lacks full column rank to rounding.
[[nodiscard]] std::optional<TriangularFactor> factorise(const SparseRows& b, Factorisation by);

/// Orthogonal where it costs little or where the condition asks for it, else Cholesky.
[[nodiscard]] std::optional<TriangularFactor> factorise(const SparseRows& b);

}  // namespace evidence::network

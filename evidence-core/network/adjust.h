#pragma once

#include "evidence-core/network/equations.h"

#include <Eigen/Core>

#include <vector>

namespace evidence::network {

/// Weighted least squares of one connected part:
///   minimise Σ (observedᵢ − predictedᵢ(x))²/σᵢ² over rows with σᵢ > 0,
///   subject to observedⱼ = predictedⱼ(x) for rows with σⱼ = 0,
/// by Gauss–Newton in relative terms; exact rows by elimination in the orthogonal complement of
/// their slopes, the rest by QR, so that a small σ costs no digits.
///
/// Matrices are in the rows' own units. For each row i of `rows`, λ = Σ⁻¹v is the weighted residual
/// (for an exact row its multiplier) and `lambdaCovariance` its covariance, whence
///   w = λᵢ/√Cᵢᵢ, misfit without the row λᵢ/Cᵢᵢ, its u 1/√Cᵢᵢ, redundancy σᵢ²Cᵢᵢ.
/// Source: the general form of Baarda's w for correlated observations (Teunissen, Testing Theory,
/// ch. 3: e'Q⁻¹v / √(e'Q⁻¹ Qv Q⁻¹e)); the border of a constrained normal matrix for exact rows.
struct Adjustment {
    std::vector<std::size_t> unknowns;  ///< columns that were free to move
    std::vector<std::size_t> rows;
    /// Exact rows that cannot hold together. Where there are any nothing else is filled: leave them
    /// out and adjust anew.
    std::vector<std::size_t> contradicted;
    bool converged = true;
    int iterations = 0;
    double chi2 = 0;
    double redundancy = 0;
    Eigen::VectorXd x;                 ///< all unknowns of the equations
    std::vector<Prediction> at;        ///< of `rows`, at x
    Eigen::VectorXd residual;          ///< `misfitOf`, by `rows`
    Eigen::VectorXd sigma;             ///< by `rows`
    Eigen::MatrixXd covariance;        ///< of `unknowns`
    Eigen::MatrixXd pull;              ///< ∂unknown/∂observed: unknowns × rows
    Eigen::VectorXd lambda;            ///< by `rows`
    Eigen::MatrixXd lambdaCovariance;  ///< rows × rows
    std::vector<bool> checked;         ///< by `rows`: something else checks it
};

enum class Detail {
    ValuesOnly,  ///< x, chi2, redundancy and covariance
    Full,
};

/// Entry: the slopes of `rows` by `unknowns` have full column rank at `start`.
[[nodiscard]] Adjustment adjust(const Equations& eq, const std::vector<std::size_t>& unknowns,
                                const std::vector<std::size_t>& rows, const Eigen::VectorXd& start,
                                Detail detail);

}  // namespace evidence::network

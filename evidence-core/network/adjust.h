#pragma once

#include "evidence-core/network/equations.h"
#include "evidence-core/network/influence.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace evidence::network {

/// Weighted least squares of one connected part:
///   minimise Σ (observedᵢ − predictedᵢ(x))²/σᵢ² over rows with σᵢ > 0,
///   subject to observedⱼ = predictedⱼ(x) for rows with σⱼ = 0,
/// by Gauss–Newton in relative terms: exact rows solved for one unknown each, the rest by a sparse
/// factor of the normal matrix (triangular_factor.h says when by Cholesky and when by QR).
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
    /// Predictions, residuals, covariances, pulls; set where the part converged.
    std::shared_ptr<const Influence> influence;
};

/// Adjusts parts of one set of equations, one after the other.
class Adjuster {
  public:
    explicit Adjuster(const Equations& eq) : m_eq(&eq), m_column(eq.unknowns.size(), -1) {}

    /// `x` holds all unknowns of the equations: start values, then those adjusted; left as it was
    /// where the part does not converge. Entry: the slopes of `rows` by `unknowns` have full column
    /// rank at `x`.
    [[nodiscard]] Adjustment run(const std::vector<std::size_t>& unknowns,
                                 const std::vector<std::size_t>& rows, Eigen::VectorXd& x);

  private:
    const Equations* m_eq;
    std::vector<Eigen::Index> m_column;  ///< by unknown, −1 between runs
};

}  // namespace evidence::network

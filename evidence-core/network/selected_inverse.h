#pragma once

#include "evidence-core/network/triangular_factor.h"

namespace evidence::network {

/// The entries of N⁻¹ in the pattern of its factor, among them all variances and the covariances of
/// unknowns that stand in one row: by the recursion of Takahashi, without the rest of the inverse.
/// Source: K. Takahashi, J. Fagan, M.-S. Chin, 1973, as in A. M. Erisman and W. F. Tinney, On
/// Computing Certain Elements of the Inverse of a Sparse Matrix, CACM 18 (1975) 177.
class SelectedInverse {
  public:
    explicit SelectedInverse(const TriangularFactor& factor);

    /// By columns of N; absent where the factor has no such entry.
    [[nodiscard]] std::optional<double> at(Eigen::Index i, Eigen::Index j) const;

  private:
    friend std::optional<SelectedInverse> inverseTimes(const TriangularFactor&,
                                                       const Eigen::SparseMatrix<double>&);
    SelectedInverse() = default;

    Eigen::VectorXi m_place;
    Eigen::SparseMatrix<double> m_values;  ///< lower, in the order of the factor
};

/// N⁻¹ M N⁻¹ in the same pattern, for all unknowns at once: minus the derivative of the selected
/// inverse along M, by carrying the derivative through factorisation and recursion. `m` symmetric,
/// whole; absent where it has entries outside the factor's pattern.
[[nodiscard]] std::optional<SelectedInverse> inverseTimes(const TriangularFactor& factor,
                                                          const Eigen::SparseMatrix<double>& m);

}  // namespace evidence::network

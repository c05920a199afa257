#pragma once

#include "evidence-core/network/elimination.h"
#include "evidence-core/network/linearised.h"
#include "evidence-core/network/selected_inverse.h"

#include <vector>

namespace evidence::network {

/// How one row of a part moves one of its unknowns.
struct RowPull {
    std::size_t row = 0;  ///< place in the part's rows
    double pull = 0;      ///< ∂unknown/∂observed, in their own units
};

/// All that moves one unknown of a part.
struct Pulls {
    std::vector<RowPull> rows;  ///< by place
    /// Share of the unknown's variance that comes from rows farther off than were followed: 0 but
    /// in parts of many thousand unknowns, where it is at most a ten-thousandth unless very many
    /// rows share the work.
    double unfollowed = 0;
};

/// The adjusted part as a linear answer to its observations: covariances, pulls, and how the
/// weighted residuals hang together. Everything is in the rows' and unknowns' own units.
///
/// λ = Σ⁻¹v is the weighted residual of a row (for an exact row its multiplier), C its covariance:
///   w = λᵢ/√Cᵢᵢ, misfit without the row λᵢ/Cᵢᵢ, its u 1/√Cᵢᵢ, redundancy σᵢ²Cᵢᵢ.
/// Source: the general form of Baarda's w for correlated observations (Teunissen, Testing Theory,
/// ch. 3: e'Q⁻¹v / √(e'Q⁻¹ Qv Q⁻¹e)).
class Influence {
  public:
    /// Absent where the part is singular to rounding. `size` by column.
    static std::optional<Influence> of(Linearised at, const Eigen::VectorXd& size);

    [[nodiscard]] const Linearised& at() const { return m_at; }
    [[nodiscard]] const Elimination& elimination() const { return m_elimination; }
    [[nodiscard]] Eigen::Index freeUnknowns() const { return m_factor.size(); }
    /// Rows with σ > 0, divided by it, in the free unknowns: N = BᵀB.
    [[nodiscard]] const SparseRows& reducedRows() const { return m_reduced; }

    /// Covariance of two linear forms in the unknowns (by column).
    [[nodiscard]] double covariance(const SparseVector& a, const SparseVector& b) const;
    [[nodiscard]] double covariance(Eigen::Index a, Eigen::Index b) const {
        return covariance(SparseVector{{a, 1.0}}, SparseVector{{b, 1.0}});
    }
    /// Covariance of one unknown with every unknown.
    [[nodiscard]] Eigen::VectorXd covarianceWith(Eigen::Index column) const;
    /// For each unknown k: Σ over all j of m_j cov(k, j)²; `m` by column.
    [[nodiscard]] Eigen::VectorXd squaredCovariances(const Eigen::VectorXd& m) const;
    /// Of each unknown's variance what so large a share of each row's variance brings; `share` by
    /// row, 0 … 1. Exact, also where `pullsOn` does not follow every row.
    [[nodiscard]] Eigen::VectorXd varianceFrom(const Eigen::VectorXd& share) const;
    /// Whether `pullsOn` works out every row.
    [[nodiscard]] bool followsEveryRow() const;

    [[nodiscard]] Pulls pullsOn(Eigen::Index column) const;
    /// ∂unknown/∂observed of one row.
    [[nodiscard]] double pull(Eigen::Index column, std::size_t row) const;

    /// Movement of the unknowns that answers misfits of all rows (by row, own units).
    [[nodiscard]] Eigen::VectorXd answer(const Eigen::VectorXd& misfit) const;

    [[nodiscard]] const Eigen::VectorXd& lambda() const { return m_lambda; }
    [[nodiscard]] const Eigen::VectorXd& lambdaVariance() const { return m_lambdaVariance; }
    /// Whether something else checks the row.
    [[nodiscard]] bool checked(std::size_t row) const { return m_checked[row]; }
    [[nodiscard]] Eigen::VectorXd lambdaCovarianceWith(std::size_t row) const;

  private:
    Influence(Linearised at, const Eigen::VectorXd& size, Elimination elimination,
              const SparseRows& reducedRows, TriangularFactor factor);
    void findLambda();
    /// tᵀ N⁻¹ M N⁻¹ t for the form t of each unknown.
    [[nodiscard]] std::optional<Eigen::VectorXd> sandwiched(
        const Eigen::SparseMatrix<double>& m) const;
    [[nodiscard]] SparseVector reduced(const SparseVector& form) const;
    /// The same with all its noughts.
    [[nodiscard]] Eigen::VectorXd wholeForm(const SparseVector& form) const;
    [[nodiscard]] double reducedProduct(const SparseVector& a, const SparseVector& b) const;
    /// aᵀ of an exact row's right inverse on the loose rows, in the reduced unknowns.
    [[nodiscard]] SparseVector exactForm(Eigen::Index independent) const;
    [[nodiscard]] Pulls nearbyPulls(Eigen::Index column) const;
    [[nodiscard]] Pulls allPulls(Eigen::Index column) const;

    Linearised m_at;
    Eigen::VectorXd m_size;
    Elimination m_elimination;
    SparseRows m_reduced;                        ///< a T: loose × free
    Eigen::SparseMatrix<double> m_byUnknown;     ///< the same by columns
    Eigen::SparseMatrix<double> m_exactOnLoose;  ///< a G: loose × independent
    TriangularFactor m_factor;
    SelectedInverse m_inverse;
    std::vector<Eigen::Index> m_looseAt;  ///< by row: its place among the loose rows, else −1
    std::vector<Eigen::Index> m_exactAt;  ///< by row: its place among the independent, else −1
    Eigen::VectorXd m_lambda;
    Eigen::VectorXd m_lambdaVariance;
    std::vector<bool> m_checked;
};

}  // namespace evidence::network

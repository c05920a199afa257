#pragma once

#include "evidence-core/network/equations.h"

#include <functional>
#include <vector>

/// What can be computed from which rows: decided on the structure of the equations, at a point that
/// satisfies all relations, never at the observed numbers, whose noise makes a singular net look
/// regular (domain.md, "Estimability").
namespace evidence::network {

/// A point that satisfies all relations that adjust or infer: near the start values in relative
/// terms (Gauss–Newton with least-norm steps). Where relations contradict each other, the
/// point nearest to satisfying them.
[[nodiscard]] Eigen::VectorXd relationPoint(const Equations& eq);

using RowMask = std::vector<bool>;

class Structure {
  public:
    /// Takes the slopes of all rows at `point`, in relative terms: columns by the unknowns' sizes,
    /// those of errors by their effect (which makes products and ratios differences of logarithms),
    /// rows to unit length.
    Structure(const Equations& eq, const Eigen::VectorXd& point);

    struct Estimability {
        std::vector<bool> estimable;  ///< by unknown
        /// Unknowns that, once fixed, leave all others estimable; one per missing datum.
        std::vector<std::size_t> free;
    };
    /// Rows that say one thing about one unknown are followed first; what they leave open is
    /// decided by the null space of each connected remainder.
    [[nodiscard]] Estimability estimability(const RowMask& use) const;

    /// By unknown, the rows in `use` whose removal alone leaves it not estimable; `free` as
    /// `estimability(use)` gave it.
    [[nodiscard]] std::vector<std::vector<std::size_t>> mustHaves(
        const RowMask& use, const std::vector<std::size_t>& free) const;

    [[nodiscard]] const std::vector<std::vector<Slope>>& rows() const { return m_rows; }
    [[nodiscard]] const std::vector<std::size_t>& rowsOf(std::size_t unknown) const {
        return m_rowsOf[unknown];
    }

  private:
    std::size_t m_unknowns = 0;
    std::vector<std::vector<Slope>> m_rows;          ///< relative slopes, noughts left out
    std::vector<std::vector<std::size_t>> m_rowsOf;  ///< by unknown
};

/// Connected parts: unknowns joined by the rows in `use`, each part in content order. Unknowns in
/// no row are left out.
struct PartMembers {
    std::vector<std::size_t> unknowns;
    std::vector<std::size_t> rows;
};
[[nodiscard]] std::vector<PartMembers> connectedParts(const Equations& eq, const RowMask& use);

}  // namespace evidence::network

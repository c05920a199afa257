#pragma once

#include "evidence-core/network/adjust.h"
#include "evidence-core/network/structure.h"

#include <optional>
#include <vector>

namespace evidence::network {

/// All parts of the network adjusted with one choice of rows.
struct Fit {
    RowMask acting;                         ///< rows that pulled
    Structure::Estimability estimability;   ///< from the acting rows
    std::vector<std::size_t> contradicted;  ///< exact rows left out because they exclude each other
    std::vector<Adjustment> parts;
    std::vector<std::vector<std::size_t>> members;      ///< all unknowns of each part
    std::vector<std::optional<std::size_t>> partOf;     ///< by unknown
    std::vector<std::optional<Eigen::Index>> columnOf;  ///< by unknown, in its part
    Eigen::VectorXd x;                                  ///< all unknowns

    /// Whether the unknown has a value: estimable, in a part that converged.
    [[nodiscard]] bool has(std::size_t unknown) const;
    /// Covariance of two linear forms in the unknowns (slopes by unknown). Unknowns without a value
    /// count as fixed.
    [[nodiscard]] double covariance(const std::vector<Slope>& a, const std::vector<Slope>& b) const;
};

/// Which of `allowed` pull: those that adjust; inferences whose dimension is not estimable
/// otherwise; then limits likewise.
[[nodiscard]] RowMask actingRows(const Equations& eq, const Structure& structure,
                                 const RowMask& allowed);

/// Adjusts every connected part of what acts among `allowed`. Exact rows that contradict each other
/// are left out.
[[nodiscard]] Fit fit(const Equations& eq, const Structure& structure, RowMask allowed,
                      const Eigen::VectorXd& start);

}  // namespace evidence::network

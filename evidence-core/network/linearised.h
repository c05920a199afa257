#pragma once

#include "evidence-core/network/equations.h"
#include "evidence-core/network/triangular_factor.h"

#include <vector>

namespace evidence::network {

/// A connected part at one point: columns in relative terms (by the unknowns' sizes), rows with
/// σ > 0 divided by it (`a`, `b`), exact rows brought to unit length (`c`, `d`).
struct Linearised {
    std::vector<Prediction> at;      ///< by row of the part
    Eigen::VectorXd residual;        ///< `misfitOf`, by row
    Eigen::VectorXd sigma;           ///< by row
    std::vector<std::size_t> loose;  ///< rows with σ > 0, places in the part's rows
    std::vector<std::size_t> exact;
    SparseRows a;  ///< loose × unknowns
    Eigen::VectorXd b;
    SparseRows c;  ///< exact × unknowns
    Eigen::VectorXd d;
    Eigen::VectorXd exactNorm;  ///< that the exact rows were divided by
    bool defined = true;        ///< false where x lies outside what an equation can bear
};

/// `column` is the place of each unknown of the equations among the part's columns, −1 where it
/// stays as it is; `size` by column.
[[nodiscard]] Linearised linearise(const Equations& eq, const std::vector<std::size_t>& rows,
                                   const std::vector<Eigen::Index>& column,
                                   const Eigen::VectorXd& size, const Eigen::VectorXd& x);

}  // namespace evidence::network

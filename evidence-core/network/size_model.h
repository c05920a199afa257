#pragma once

#include "evidence-core/network/equations.h"

#include <vector>

/// Private to network/: how a size as designed becomes the number that was read.
namespace evidence::network {

/// An unknown as it is.
[[nodiscard]] Prediction identity(const Eigen::VectorXd& x, std::size_t unknown);

/// Adds the errors of shared marks to what a row predicts in pixels.
void addMarks(Prediction& to, const std::vector<Slope>& marks, const Eigen::VectorXd& x);

/// One correction of a reading, undone on the way from the size to the number read.
struct CorrectionStep {
    bool factor = false;  ///< multiplies; else adds
    double amount = 0;    ///< canonical unit, or pure
    std::size_t error = 0;
};

/// size = D·(1 + Σ cᵢ Eᵢ) + Σ cⱼ Eⱼ, with D an unknown or a fixed length; then the corrections
/// undone in reverse order.
struct SizeModel {
    std::optional<std::size_t> dimension;  ///< unknown
    double fixed = 0;                      ///< where there is no unknown
    std::vector<Slope> relative;
    std::vector<Slope> absolute;
    std::vector<CorrectionStep> corrections;

    /// Value, slopes by all its unknowns, and perUnit = ∂value/∂size.
    [[nodiscard]] Prediction predict(const Eigen::VectorXd& x) const;
};

}  // namespace evidence::network

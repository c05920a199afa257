#pragma once

#include "imaging/frame/inputs.h"
#include "imaging/refusal.h"

#include <Eigen/Core>

#include <functional>
#include <optional>
#include <vector>

/// The one solver of all frames.
namespace imaging::frame {

/// What must hold: residuals that are zero where inputs and parameters fit each other, each with
/// its derivatives by the inputs (index 0 … n−1) and the parameters (index n, n+1 …). Any scale of
/// a residual will do. None where the parameters make no sense (a point behind the camera).
using Conditions = std::function<std::optional<std::vector<Tracked>>(
    const Eigen::VectorXd& inputs, const Eigen::VectorXd& parameters)>;

/// Parameters that fit best, how they follow the inputs, and what is left over.
struct Adjustment {
    Eigen::VectorXd parameters;
    Eigen::MatrixXd covariance;  ///< of the parameters
    Eigen::MatrixXd byInputs;    ///< p × n: derivatives of the parameters by the inputs
    Eigen::VectorXd inputs;      ///< as adjusted
    Eigen::VectorXd residuals;   ///< conditions at the inputs as observed, in their own units
    Eigen::VectorXd uResiduals;  ///< their standard deviations; 0 without redundancy
    Eigen::VectorXd redundancies;
    double chi2 = 0;
    int redundancy = 0;  ///< conditions less parameters
    int iterations = 0;
};

/// Least squares of the inputs' corrections v with f(inputs + v, parameters) = 0: minimise vᵀΣ⁻¹v
/// (the mixed or Gauss-Helmert model, so that pixels, known lengths and known coordinates all have
/// their own uncertainty). Levenberg-Marquardt from `start` on the whitened conditions, then
/// Gauss-Newton with the inputs as adjusted; steps, covariance and rank by a pivoting QR of the
/// whitened Jacobian.
/// Entry: start makes sense to `conditions`. Errors (place ""): NoSolution where the conditions are
/// too few, do not determine the parameters, or no minimum was found.
/// Source: E. M. Mikhail and F. Ackermann, Observations and Least Squares, 1976, ch. 9 (from
/// memory); JCGM 100:2008, 5. Checked by the line with errors in both axes of K. Pearson (1901)
/// and D. York (1966) in tests/imaging/frame/adjust_test.cpp.
[[nodiscard]] Result<Adjustment> adjust(const Inputs& inputs, const Eigen::VectorXd& start,
                                        const Conditions& conditions);

/// The cost that `adjust` minimises, at the inputs as observed; infinite where it makes no sense.
/// For choosing between starts.
[[nodiscard]] double costAt(const Inputs& inputs, const Eigen::VectorXd& parameters,
                            const Conditions& conditions);

}  // namespace imaging::frame

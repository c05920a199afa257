#pragma once

#include <Eigen/Core>

#include <optional>
#include <span>

/// How well several values of one quantity agree, and what their spread says of errors that nobody
/// stated. The register shows these figures and never applies them: its weights are those of the
/// evidence and its variance factor is 1 (docs/domain.md, "Analysis").
namespace evidence::statistics {

/// A value with its standard uncertainty, in one unit; u > 0 wherever weights are 1/u².
struct Estimate {
    double value = 0;
    double u = 0;
};

/// Mean by weights 1/u², and how the values scatter about it.
struct WeightedMean {
    double mean = 0;
    double uInternal = 0;  ///< (Σ 1/u²)^−½: what the stated uncertainties promise
    double uExternal = 0;  ///< uInternal × birge: what the scatter says
    double q = 0;          ///< Σ ((x − mean)/u)²: Cochran's Q, the observed χ²
    int degrees = 0;       ///< n − 1
    /// √(q/degrees); absent for one value. Much above 1: the values disagree more than their
    /// uncertainties allow.
    std::optional<double> birge;
    std::optional<double> p;  ///< probability of a larger Q if all were as stated
};

/// At least one value. Source: Birge, The calculation of errors by the method of least squares,
/// Phys. Rev. 40 (1932) 207-227; Cochran, Biometrics 10 (1954) 101-129.
[[nodiscard]] WeightedMean weightedMean(std::span<const Estimate> values);

/// The same for correlated values: generalised least squares. `covariance` is n×n, symmetric,
/// positive definite. Beware of covariances built from relative errors of the values themselves:
/// they pull the mean outside all of them (Peelle's puzzle); build them from the mean.
[[nodiscard]] WeightedMean correlatedMean(std::span<const double> values,
                                          const Eigen::MatrixXd& covariance);

/// Mean of values which, beside their own errors, differ from source to source with a standard
/// deviation `between`, so that each has the variance u² + between².
struct RandomEffects {
    double between = 0;  ///< 0 where the values scatter no more than their u allow
    double mean = 0;
    double u = 0;
};

enum class BetweenRule {
    DerSimonianLaird,      ///< from Q in closed form; Control. Clin. Trials 7 (1986) 177-188
    MandelPaule,           ///< Q with between² added equals n − 1; J. Res. NBS 87 (1982) 377-385
    MaximumLikelihood,     ///< of normal errors with known u
    RestrictedLikelihood,  ///< the same, freed of the bias that the estimated mean brings
};

/// At least two values. `between²` of the last three is found by bracketing to full precision.
/// Source: DerSimonian and Kacker, Random-effects model for meta-analysis of clinical trials: an
/// update, Contemp. Clin. Trials 28 (2007) 105-114, for all four.
[[nodiscard]] RandomEffects randomEffects(std::span<const Estimate> values, BetweenRule rule);

/// Middle value; mean of the two middle ones where their number is even. At least one value.
[[nodiscard]] double median(std::span<const double> values);
/// 1.4826022 × the median distance from the median: a standard deviation that outliers do not move.
[[nodiscard]] double scaledMedianDeviation(std::span<const double> values);
/// First value, in rising order, at which half of all weights 1/u² is reached.
[[nodiscard]] double weightedMedian(std::span<const Estimate> values);

/// |a − b| / √(U²(a) + U²(b)) with U = 1.96 u: 1 or less is agreement. Needs u(a) or u(b) > 0.
/// Source: ISO 13528:2022, E_n score (with U for 95 %).
[[nodiscard]] double normalisedError(const Estimate& a, const Estimate& b);

}  // namespace evidence::statistics

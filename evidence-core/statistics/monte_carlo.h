#pragma once

#include "evidence-core/quantity/interval.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <utility>
#include <vector>

/// Propagation of distributions by Monte Carlo (JCGM 101:2008): what a value's interval is where
/// the law of propagation of uncertainty, which is linear, cannot be trusted.
///
/// Every draw is a function of (seed, input, trial) alone (see `philox.h`): results do not depend
/// on the order of evaluation, on threads or on the platform's random library.
namespace evidence::statistics {

/// How one input errs about its middle. Lengths in the input's own unit.
struct DrawShape {
    enum class Law {
        Normal,           ///< `scale` is the standard deviation
        Rectangular,      ///< `scale` is the half-width
        Triangular,       ///< `scale` is the half-width
        ArcSine,          ///< `scale` is the half-width (a cyclic error of that amplitude)
        CurvedTrapezoid,  ///< `scale` is the half-width, itself only known to ± `second`
        StudentT,         ///< `scale` multiplies t with `second` degrees of freedom
    };
    Law law = Law::Normal;
    double scale = 0;
    double second = 0;

    friend bool operator==(const DrawShape&, const DrawShape&) = default;
};

[[nodiscard]] DrawShape normalDraw(double u);
[[nodiscard]] DrawShape rectangularDraw(double halfWidth);
[[nodiscard]] DrawShape triangularDraw(double halfWidth);
[[nodiscard]] DrawShape arcSineDraw(double halfWidth);
/// 0 ≤ inexactness ≤ halfWidth.
[[nodiscard]] DrawShape curvedTrapezoidDraw(double halfWidth, double inexactness);
[[nodiscard]] DrawShape studentDraw(double scale, double degrees);
/// An error of standard uncertainty `u` and the shape that the network gave it.
[[nodiscard]] DrawShape drawOf(const quantity::Component& component);

/// Standard deviation of the law; infinite for Student's t with two degrees of freedom or fewer.
/// Source: JCGM 101:2008, 6.4.2 to 6.4.9; JCGM 100:2008, 4.3.
[[nodiscard]] double standardDeviation(const DrawShape& shape);

/// The error that input number `input` has in trial number `trial`.
/// Sources: JCGM 101:2008, 6.4.2.4, 6.4.3.4, 6.4.5.4, 6.4.6.4 and 6.4.7.4; Student's t by the polar
/// form of Bailey, Polar generation of random variates with the t-distribution, Math. Comp. 62
/// (1994) 779-781.
[[nodiscard]] double drawn(const DrawShape& shape, std::uint64_t seed, std::uint32_t input,
                           std::uint64_t trial);

/// `count` errors of one input, trial 0 first.
[[nodiscard]] std::vector<double> draws(const DrawShape& shape, std::uint64_t seed,
                                        std::uint32_t input, std::size_t count);

/// Interval that holds `probability` of `sorted` (ascending, at least 2 values), as much left out
/// below as above. Source: JCGM 101:2008, 7.7.2.
[[nodiscard]] quantity::Interval symmetricInterval(std::span<const double> sorted,
                                                   double probability);
/// The shortest interval that holds it. Its ends wander much more than u does: for a figure that is
/// printed to three digits draw 1e6. Source: JCGM 101:2008, 5.3.4 and 7.7.
[[nodiscard]] quantity::Interval shortestInterval(std::span<const double> sorted,
                                                  double probability);

struct DrawOptions {
    std::uint64_t seed = 1;
    std::size_t count = 200000;
    double probability = 0.95;
};

struct Propagated {
    double mean = 0;
    double u = 0;
    quantity::Interval symmetric;
    quantity::Interval shortest;
};

/// Distribution of `model` over independent errors: it is given the errors of one trial, in the
/// order of `errors`, and answers the value. A value that is not finite is left out of all figures;
/// fewer than half finite ones: nothing is known and all fields are NaN.
[[nodiscard]] Propagated propagate(std::span<const DrawShape> errors,
                                   const std::function<double(std::span<const double>)>& model,
                                   const DrawOptions& options);

/// Figures of values that were drawn elsewhere, for example one component of a vector: sorts them.
[[nodiscard]] Propagated summaryOf(std::vector<double> values, double probability);

}  // namespace evidence::statistics

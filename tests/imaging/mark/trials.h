#pragma once

#include <cmath>
#include <vector>

namespace imaging::mark::test {

/// Errors of many trials beside the uncertainty each claimed.
struct Trials {
    std::vector<double> errors;
    std::vector<double> claimed;  ///< standard uncertainties
    int refused = 0;

    void add(double error, double u) {
        errors.push_back(error);
        claimed.push_back(u);
    }
    [[nodiscard]] double bias() const {
        double sum = 0;
        for (const double e : errors) {
            sum += e;
        }
        return sum / static_cast<double>(errors.size());
    }
    [[nodiscard]] double rms() const {
        double sum = 0;
        for (const double e : errors) {
            sum += e * e;
        }
        return std::sqrt(sum / static_cast<double>(errors.size()));
    }
    /// Share of trials whose 95 % interval holds the truth.
    [[nodiscard]] double coverage() const {
        double inside = 0;
        for (std::size_t i = 0; i < errors.size(); ++i) {
            inside += std::abs(errors[i]) <= 1.959964 * claimed[i] ? 1 : 0;
        }
        return inside / static_cast<double>(errors.size());
    }
};

/// Cramér-Rao bound of the position of a blurred step from `rows` profiles of unit spacing, levels
/// and blur unknown (they do not correlate with the position of a symmetric step):
/// u ≥ (n/h)·√(2√π·s)/√rows. Derived in docs/method/marks.md.
inline double stepBound(double noiseOverStep, double blur, double rows) {
    return noiseOverStep * std::sqrt(2 * std::sqrt(3.14159265358979) * blur / rows);
}

}  // namespace imaging::mark::test

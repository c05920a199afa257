#pragma once

#include <limits>
#include <optional>
#include <span>

namespace evidence::statistics {

/// One independent contribution to a combined uncertainty: |∂y/∂x| u(x), and the degrees of freedom
/// u(x) was estimated with; infinite where it is not estimated but known.
struct Contribution {
    double u = 0;
    double degrees = std::numeric_limits<double>::infinity();
};

/// u_c⁴ / Σ uᵢ⁴/νᵢ (Welch–Satterthwaite); infinite where no contribution was estimated. Not valid
/// for correlated inputs. Feed it unrounded figures: from the rounded u_c of the end-gauge example
/// it gives 17 where 16 is right.
/// Source: JCGM 100:2008, G.4.1, eq. (G.2b). Checked by: tests/checks/effective_degrees_test.cpp
[[nodiscard]] double effectiveDegrees(std::span<const Contribution> contributions);

/// Half-width that holds `probability` by Student's t at the effective degrees of freedom rounded
/// down, as JCGM 100:2008, G.4.1, note 1 does. A guard of 0.01 keeps 18.9987 at 19, as printed
/// there. Absent with less than one effective degree.
[[nodiscard]] std::optional<double> expandedUncertainty(std::span<const Contribution> contributions,
                                                        double probability);

}  // namespace evidence::statistics

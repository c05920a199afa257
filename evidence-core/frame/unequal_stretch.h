#pragma once

#include <optional>
#include <span>

namespace evidence::frame {

/// A known length as it lies on a sheet.
struct KnownVector {
    double dx = 0;      ///< px, x right
    double dy = 0;      ///< px, y down
    double length = 0;  ///< in, > 0
    double u = 0;       ///< standard uncertainty of the length with that of its pixels, in; > 0
};

struct StretchRatio {
    double ratio = 1;  ///< scale along x over scale along y (in/px over in/px)
    double u = 0;
};

/// Whether a sheet has one scale: least squares of L² = sx²·dx² + sy²·dy², linear in a = sx² and
/// b = sy², weights 1/(2 L u)²; the ratio r = √(a/b). Shear is taken to be 0.
///
///   u²(r) = r²/4 · (V₁₁/a² + V₂₂/b² − 2 V₁₂/(ab))      (JCGM 100:2008, 5.2.2, eq. (13))
///
/// Absent where the lengths do not tell the two apart: none nearer to one of the axes than to the
/// other, nearly all in one direction, or a scale that comes out imaginary.
[[nodiscard]] std::optional<StretchRatio> stretchRatio(std::span<const KnownVector> known);

}  // namespace evidence::frame

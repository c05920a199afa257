#pragma once

namespace imaging::frame {

/// Half of the 95 % interval of value + normal error of standard deviation `normal` + rectangular
/// error within ± `rectangular`: the x with P(|error| ≤ x) = 0.95, from the closed form
/// F(x) = σ/(2h)·[Ψ((x+h)/σ) − Ψ((x−h)/σ)], Ψ(z) = zΦ(z) + φ(z).
/// Both ≥ 0; any may be zero. 1.959964·σ without a rectangular part, 0.95·h without a normal one.
/// Source: convolution of two independent errors; JCGM 101:2008, 6.4.2 and 6.4.7.
[[nodiscard]] double halfWidth95(double normal, double rectangular);

}  // namespace imaging::frame

#pragma once

namespace evidence::frame {

/// Scale of a `printed` frame, inches of the original per pixel, with its standard uncertainty.
struct PrintedScale {
    double inchesPerPixel = 0;
    double u = 0;
};

/// Relative standard uncertainty of a printed scale where nobody gave one (domain.md, defaults).
inline constexpr double kPrintedRelativeDefault = 0.005;

/// s = drawnScale / dpi, u(s) = s · uRelative: a scan of `dpi` pixels per inch of a sheet drawn at
/// 1 : `drawnScale` (24 for 1:24). Entry: dpi > 0, drawnScale > 0, uRelative ≥ 0 (shrinkage of the
/// paper and scale of the scanner; one error common to all that is measured through the frame).
[[nodiscard]] PrintedScale printedScale(double dpi, double drawnScale, double uRelative);

}  // namespace evidence::frame

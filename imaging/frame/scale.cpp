#include "imaging/frame/scale.h"

#include <cmath>

namespace imaging::frame {
namespace {

/// δ₀ for a test at α₀ = 0.001 (two-sided) with power 0.80: 3.2905 + 0.8416.
constexpr double kDetectable = 4.1321;

double variance(const ScaleReference& r, double scale) {
    const double pixels = scale * r.uPixels;
    const double least = 1e-9 * r.inches;
    return r.uInches * r.uInches + pixels * pixels + least * least;
}

}  // namespace

Result<Scale> solveScale(std::span<const ScaleReference> references) {
    Scale scale;
    int adjusting = 0;
    for (const ScaleReference& r : references) {
        if (!(r.pixels > 0 && r.inches > 0)) {
            return refuse(Code::NoSolution, "/references",
                          "a reference has no length above zero on the sheet or in inches");
        }
        if (!r.checkOnly) {
            ++adjusting;
            scale.inchesPerPixel += r.inches / r.pixels;
        }
    }
    if (adjusting == 0) {
        return refuse(Code::NoSolution, "/references",
                      "a uniform frame needs at least one reference of known length");
    }
    scale.inchesPerPixel /= adjusting;
    double information = 0;
    for (int round = 0; round < 50; ++round) {
        const double before = scale.inchesPerPixel;
        double moment = 0;
        information = 0;
        for (const ScaleReference& r : references) {
            if (r.checkOnly) {
                continue;
            }
            const double weight = 1 / variance(r, before);
            moment += weight * r.pixels * r.inches;
            information += weight * r.pixels * r.pixels;
        }
        scale.inchesPerPixel = moment / information;
        if (std::abs(scale.inchesPerPixel - before) <= 1e-15 * before) {
            break;
        }
    }
    const double s = scale.inchesPerPixel;
    double squares = 0;
    for (const ScaleReference& r : references) {
        const double v = variance(r, s);
        const double share = r.checkOnly ? 0 : r.pixels / (v * information);
        scale.byInches.push_back(share);
        scale.byPixels.push_back(-s * share);
        ScaleResidual residual;
        residual.residual = r.inches - s * r.pixels;
        // A check adds its own variance and the scale's; an adjusting one shares in the scale.
        const double ofResidual = r.checkOnly ? v + r.pixels * r.pixels / information
                                              : v - r.pixels * r.pixels / information;
        residual.redundancy = r.checkOnly ? 1 : std::max(0.0, ofResidual / v);
        if (residual.redundancy > 1e-9) {
            residual.w = residual.residual / std::sqrt(ofResidual);
            residual.mde = r.checkOnly ? kDetectable * std::sqrt(ofResidual)
                                       : kDetectable * std::sqrt(v / residual.redundancy);
        }
        if (!r.checkOnly) {
            scale.chi2 += residual.residual * residual.residual / v;
            squares += residual.residual * residual.residual / (s * s * adjusting);
        }
        scale.residuals.push_back(residual);
    }
    scale.redundancy = adjusting - 1;
    scale.rmsPx = std::sqrt(squares);
    return scale;
}

}  // namespace imaging::frame

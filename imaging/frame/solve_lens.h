#pragma once

#include "evidence-core/frame/lens.h"
#include "imaging/frame/adjust.h"
#include "imaging/mark/mark.h"

#include <span>

namespace imaging::frame {

/// A line known to be straight: places along it in the picture, independent of each other.
struct StraightLine {
    std::vector<mark::PixelPoint> points;
    std::vector<Eigen::Matrix2d> covariances;  ///< px²
};

struct LensSolution {
    evidence::frame::Lens lens;
    /// Of cx, cy, k1, k2; zero rows where a term is not used.
    Eigen::Matrix4d covariance = Eigen::Matrix4d::Zero();
    double rmsPx = 0;  ///< of the points about their lines, distortion taken out
    double reach = 0;  ///< px from the lens' centre to the farthest point of a line
    double chi2 = 0;
    int redundancy = 0;
};

/// Radial distortion from lines that are straight in the world (plumb line): terms and centre such
/// that the lines come out straight, least squares on the pixels of their points with the lines'
/// own place and direction free. The centre is a prior, the picture's middle ± 5 % of its width.
/// The second term is kept only where the lines demand it (it lowers χ² by 3.29² or more).
/// The covariance is raised by χ²/redundancy where that is above 1, and that of k by what single
/// pictures of boards have shown: their k scatter four times as much as their pixels say
/// (docs/method/frames.md, "Lens").
/// Errors (place ""): NoSolution: no line of three points or more, or lines that say nothing (all
/// short, or through the middle).
/// Source: D. C. Brown, Close-range camera calibration, 1971; F. Devernay and O. Faugeras, Straight
/// lines have to be straight, 2001 (from memory).
[[nodiscard]] Result<LensSolution> solveLens(std::span<const StraightLine> lines,
                                             double pictureWidth, double pictureHeight);

}  // namespace imaging::frame

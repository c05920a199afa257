#pragma once

#include "imaging/raster/grey_image.h"
#include "imaging/refusal.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

/// Features on a sheet, placed by hand or fitted to its pixels.
namespace imaging::mark {

using PixelPoint =
    Eigen::Vector2d;  ///< sheet pixels: origin at the centre of the top-left pixel, y down

enum class MarkKind { Point, Segment, Line, Circle, Ellipse, Curve, Pattern };

/// How a placed mark is moved onto what the pixels show.
enum class Fit {
    None,        ///< stays as placed
    Edge,        ///< onto the edge between dark and light
    LineCentre,  ///< onto the middle of a drawn line, whatever its width
    Corner,      ///< a point: onto the crossing of two edges
};

/// Uncertainty of a point placed by hand where nobody gave one, px per axis (domain.md).
inline constexpr double kPlacedU = 0.5;
inline constexpr double kSearchDefault = 6;

struct MarkRequest {
    MarkKind kind = MarkKind::Point;
    /// 1 for a point, 2 for a segment or line (a line may have more), 3 or more for a circle and a
    /// pattern, 5 or more for an ellipse, 2 or more for a curve.
    std::vector<PixelPoint> points;
    Fit fit = Fit::None;
    double searchPx = kSearchDefault;  ///< how far to either side of the placed mark, 1 … 100
    std::optional<double> uPx;         ///< standard uncertainty per axis of what stays as placed
    double edgeBiasPx = 0;             ///< standard uncertainty per edge for ink spread or halation
    /// The same points picked again, for `None`: their scatter is the uncertainty of picking.
    std::vector<std::vector<PixelPoint>> repeats;
};

/// A circle's own parameters; covariance in the order centre x, centre y, radius (px²).
struct CircleFit {
    PixelPoint centre = PixelPoint::Zero();
    double radius = 0;
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
};

/// An ellipse's own parameters: half-axes a ≥ b, `angle` (rad, −π/2 … π/2) from x to the greater
/// one; covariance in the order centre x, centre y, a, b, angle (px², px·rad, rad²).
struct EllipseFit {
    PixelPoint centre = PixelPoint::Zero();
    double a = 0;
    double b = 0;
    double angle = 0;
    Eigen::Matrix<double, 5, 5> covariance = Eigen::Matrix<double, 5, 5>::Zero();
};

struct FittedMark {
    MarkKind kind = MarkKind::Point;
    Fit made = Fit::None;
    std::vector<PixelPoint> points;
    /// 2n × 2n px², order x1, y1, x2, y2 …; what the pixels do not say (along a line, across a
    /// segment) has the uncertainty of placing.
    Eigen::MatrixXd covariance;
    double rmsPx = 0;  ///< px: scatter of the single parts of the fit about it; 0 where none
    long used = 0;     ///< pixels that carried the fit
    std::optional<CircleFit> circle;
    std::optional<EllipseFit> ellipse;
    /// Of a pattern: the numbers of its points in the row, from 0; those missing are not there.
    std::vector<int> teeth;
    /// Of a traced curve, instead of `covariance`, which would be immense: 2×2 px² for each point.
    std::vector<Eigen::Matrix2d> pointCovariances;
    std::optional<double> widthPx;  ///< width of the drawn line, for `LineCentre`
};

/// Fits a mark to the pixels of `image`.
/// Edges are a blurred step, a + b·Φ(d/σ) averaged over the pixel, drawn lines two such steps with
/// free grounds on both sides; levels, blur s and position are free, and raw pixels are fitted
/// (nothing is interpolated). Covariance: σ²κ(JᵀJ)⁻¹ with the noise σ and its correlation κ
/// estimated from the residuals on the spot, raised where the parts of a line or rim scatter more
/// than that. A `Segment` with `Edge` or `LineCentre` works like calipers: each end moves along the
/// segment only. Errors (place: "" or a pointer into the mark, as "/points/0"): BadValue for a
/// wrong number of points or coinciding ones; OutsideSheet; NoFit where no edge or line stands out
/// of the noise. Source: docs/method/marks.md; bound of Cramér and Rao compared in the tests.
[[nodiscard]] Result<FittedMark> fitMark(const raster::GreyImage& image,
                                         const MarkRequest& request);

[[nodiscard]] std::string_view kindName(MarkKind kind);
[[nodiscard]] std::string_view fitName(Fit fit);

}  // namespace imaging::mark

#pragma once

#include "evidence-core/frame/lens.h"
#include "imaging/frame/inputs.h"
#include "imaging/frame/tracked.h"
#include "imaging/mark/mark.h"

#include <Eigen/Core>

#include <functional>
#include <optional>
#include <vector>

/// Marks as numbers among the inputs, and the geometry of what they show.
namespace imaging::frame {

/// Where the numbers of a mark stand among the inputs and what they are.
struct Feature {
    enum class Numbers {
        Points,   ///< x1, y1, x2, y2 …
        Circle,   ///< cx, cy, r: fitted
        Ellipse,  ///< cx, cy, a, b, angle: fitted
    };
    mark::MarkKind kind = mark::MarkKind::Point;
    Numbers numbers = Numbers::Points;
    int first = 0;
    int points = 0;  ///< how many, for `Points`

    [[nodiscard]] bool isLine() const {
        return kind == mark::MarkKind::Line || kind == mark::MarkKind::Segment;
    }
    [[nodiscard]] bool isRound() const {
        return kind == mark::MarkKind::Circle || kind == mark::MarkKind::Ellipse;
    }
    [[nodiscard]] bool isPoint() const { return kind == mark::MarkKind::Point || isRound(); }
};

/// Adds a mark's numbers to the inputs. `extra` px is added in quadrature to each coordinate: what
/// pictures show beyond the noise of their pixels (docs/method/frames.md, "Floor").
[[nodiscard]] Feature addMark(Inputs& inputs, const mark::FittedMark& mark, double extra = 0);

/// The lens of a whole picture among the inputs: cx, cy, k1, k2 from `first` on.
struct LensInput {
    int first = 0;
    double unit = 1;
};

/// Reads features at given values of the inputs, with the lens' distortion taken out.
class Reader {
  public:
    Reader(const Eigen::VectorXd& values, std::optional<LensInput> lens)
        : m_values(values), m_lens(lens) {}

    /// The i-th point of a feature of points, or the middle of a round one.
    [[nodiscard]] TrackedPoint point(const Feature& feature, int i) const;
    [[nodiscard]] TrackedPoint firstPoint(const Feature& feature) const {
        return point(feature, 0);
    }
    [[nodiscard]] TrackedPoint lastPoint(const Feature& feature) const {
        return point(feature, feature.points - 1);
    }
    /// Points of the rim: the placed ones, or samples of the fitted circle or ellipse.
    [[nodiscard]] std::vector<TrackedPoint> rim(const Feature& feature) const;
    /// All points of a feature of points.
    [[nodiscard]] std::vector<TrackedPoint> all(const Feature& feature) const;
    /// Middle, and middle + half-axis along both axes of an ellipse or circle.
    struct Axes {
        TrackedPoint middle;
        TrackedPoint first;
        TrackedPoint second;
    };
    [[nodiscard]] Axes axes(const Feature& feature) const;

    [[nodiscard]] Tracked input(int index) const { return variable(m_values(index), index); }

  private:
    [[nodiscard]] TrackedPoint straight(const TrackedPoint& p) const;
    [[nodiscard]] TrackedPoint onEllipse(const Feature& feature, double turn) const;

    const Eigen::VectorXd& m_values;
    std::optional<LensInput> m_lens;
};

/// Carries a pixel into inches; none where the frame cannot (the vanishing line).
using Carrier = std::function<std::optional<TrackedPoint>(const TrackedPoint&)>;

// Geometry of tracked points: the functions of evidence-core/frame with the chain rule.
[[nodiscard]] Tracked distance(const TrackedPoint& p, const TrackedPoint& q);
[[nodiscard]] Tracked distanceToLine(const TrackedPoint& p, const TrackedPoint& a,
                                     const TrackedPoint& b);
[[nodiscard]] Tracked distanceOfLines(const TrackedPoint& a, const TrackedPoint& b,
                                      const TrackedPoint& c, const TrackedPoint& d);
[[nodiscard]] Tracked angleOfLines(const TrackedPoint& a, const TrackedPoint& b,
                                   const TrackedPoint& c, const TrackedPoint& d);
[[nodiscard]] Tracked sineOfLines(const TrackedPoint& a, const TrackedPoint& b,
                                  const TrackedPoint& c, const TrackedPoint& d);
[[nodiscard]] Tracked cosineOfLines(const TrackedPoint& a, const TrackedPoint& b,
                                    const TrackedPoint& c, const TrackedPoint& d);

struct TrackedCircle {
    TrackedPoint centre;
    Tracked radius;
};
/// The circle through carried rim points; none where they give none.
[[nodiscard]] std::optional<TrackedCircle> circleOf(const std::vector<TrackedPoint>& rim);

/// A feature's rim carried to the plane and a circle fitted there: so the middle of the picture's
/// ellipse is never taken for the middle of the circle.
[[nodiscard]] std::optional<TrackedCircle> carriedCircle(const Reader& reader,
                                                         const Feature& feature,
                                                         const Carrier& carry);

/// The place a feature stands for: a point, or the centre of a round one by carriedCircle.
[[nodiscard]] std::optional<TrackedPoint> carriedPoint(const Reader& reader, const Feature& feature,
                                                       const Carrier& carry);

/// The length a feature shows: from its first to its last point, or the diameter of a round one.
[[nodiscard]] std::optional<Tracked> carriedLength(const Reader& reader, const Feature& feature,
                                                   const Carrier& carry);

}  // namespace imaging::frame

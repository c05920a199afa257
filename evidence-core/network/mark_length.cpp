#include "evidence-core/network/mark_length.h"

#include "evidence-core/frame/circle.h"
#include "evidence-core/frame/pixel_geometry.h"

#include <cmath>

namespace evidence::network {

using frame::Point;
using record::DimensionQuantity;
using record::MarkKind;

namespace {

Point pointOf(const record::PixelPoint& p) {
    return {p.x, p.y};
}

bool isConic(const record::Mark& mark) {
    return mark.kind == MarkKind::Circle || mark.kind == MarkKind::Ellipse;
}

/// Whether the numbers are those of the fit and not of the points.
bool usesFit(const record::Mark& mark) {
    return isConic(mark) && mark.fit &&
           (mark.fit->radius || (mark.kind == MarkKind::Ellipse && mark.fit->axes));
}

std::optional<Eigen::MatrixXd> squareMatrix(const std::vector<std::vector<double>>& rows,
                                            Eigen::Index n) {
    if (std::cmp_not_equal(rows.size(), n)) return std::nullopt;
    Eigen::MatrixXd m(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto& row = rows[static_cast<std::size_t>(i)];
        if (std::cmp_not_equal(row.size(), n)) return std::nullopt;
        for (Eigen::Index j = 0; j < n; ++j) m(i, j) = row[static_cast<std::size_t>(j)];
    }
    return Eigen::MatrixXd((m + m.transpose()) / 2);
}

std::vector<Point> pointsOf(const record::Mark& mark) {
    std::vector<Point> points;
    points.reserve(mark.points.size());
    for (const auto& p : mark.points) points.push_back(pointOf(p));
    return points;
}

MarkNumbers pointNumbers(const record::Mark& mark, double defaultU) {
    MarkNumbers out;
    const auto n = static_cast<Eigen::Index>(2 * mark.points.size());
    out.value.resize(n);
    for (std::size_t i = 0; i < mark.points.size(); ++i) {
        out.value(static_cast<Eigen::Index>(2 * i)) = mark.points[i].x;
        out.value(static_cast<Eigen::Index>(2 * i + 1)) = mark.points[i].y;
    }
    if (auto given = squareMatrix(mark.covariance, n)) {
        out.covariance = *std::move(given);
        return out;
    }
    const double u = mark.uPx.value_or(defaultU);
    out.byDefault = !mark.uPx;
    out.covariance = Eigen::MatrixXd::Identity(n, n) * u * u;
    return out;
}

MarkNumbers fitNumbers(const record::Mark& mark, double defaultU) {
    MarkNumbers out;
    const auto& fit = *mark.fit;
    if (fit.radius) {
        out.value = Eigen::Vector3d(fit.centre.x, fit.centre.y, *fit.radius);
    } else {
        out.value.resize(5);
        out.value << fit.centre.x, fit.centre.y, (*fit.axes)[0], (*fit.axes)[1],
            fit.angle.value_or(0);
    }
    if (auto given = squareMatrix(fit.covariance, out.value.size())) {
        out.covariance = *std::move(given);
        return out;
    }
    // A fit without its covariance is at least as good as one rim point.
    const double u = mark.uPx.value_or(defaultU);
    out.byDefault = !mark.uPx;
    out.covariance = Eigen::MatrixXd::Identity(out.value.size(), out.value.size()) * u * u;
    return out;
}

template <int N>
PixelMeasure lengthOf(const frame::Derived<N>& d, const record::MarkId& id) {
    return {d.value, false, {id}, {d.jacobian}};
}

PixelResult conicSize(const record::Mark& mark, DimensionQuantity asked) {
    const double times = asked == DimensionQuantity::Radius ? 1.0 : 2.0;
    PixelMeasure out{0, false, {mark.id}, {}};
    if (usesFit(mark)) {
        const auto& fit = *mark.fit;
        if (fit.radius) {
            out.value = times * *fit.radius;
            out.slopes.emplace_back(Eigen::RowVector3d(0, 0, times));
            return out;
        }
        const Eigen::Index greater = (*fit.axes)[0] >= (*fit.axes)[1] ? 2 : 3;
        out.value = times * std::max((*fit.axes)[0], (*fit.axes)[1]);
        out.slopes.emplace_back(Eigen::RowVectorXd::Zero(5));
        out.slopes[0](greater) = times;
        return out;
    }
    if (mark.kind == MarkKind::Ellipse)
        return tl::unexpected(std::string("the ellipse has not been fitted"));
    const auto points = pointsOf(mark);
    const auto circle = points.size() >= 3 ? frame::circleThrough(points) : std::nullopt;
    if (!circle) return tl::unexpected(std::string("its points do not lie on one circle"));
    out.value = times * circle->radius;
    out.slopes.emplace_back(times * circle->jacobian.row(2));
    return out;
}

PixelResult traceLength(const record::Mark& mark) {
    const auto points = pointsOf(mark);
    if (points.size() < 2) return tl::unexpected(std::string("a curve needs two points"));
    PixelMeasure out{0, false, {mark.id}, {}};
    Eigen::RowVectorXd slope =
        Eigen::RowVectorXd::Zero(static_cast<Eigen::Index>(2 * points.size()));
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const auto d = frame::pointToPoint(points[i], points[i + 1]);
        out.value += d.value;
        slope.segment<4>(static_cast<Eigen::Index>(2 * i)) += d.jacobian;
    }
    out.slopes.push_back(slope);
    return out;
}

/// Two neighbouring teeth and the last one: the whole run over the number of its pitches.
PixelResult pitchOf(const record::Mark& mark) {
    const auto points = pointsOf(mark);
    if (points.size() < 2) return tl::unexpected(std::string("a pattern needs two teeth"));
    const auto first = frame::pointToPoint(points[0], points[1]);
    const auto run = frame::pointToPoint(points[0], points.back());
    if (!(first.value > 0)) return tl::unexpected(std::string("its first two teeth coincide"));
    const double pitches = std::max(1.0, std::round(run.value / first.value));
    PixelMeasure out{run.value / pitches, false, {mark.id}, {}};
    const auto n = static_cast<Eigen::Index>(2 * points.size());
    Eigen::RowVectorXd slope = Eigen::RowVectorXd::Zero(n);
    slope.head<2>() = run.jacobian.head<2>() / pitches;
    slope.tail<2>() += run.jacobian.tail<2>() / pitches;
    out.slopes.push_back(slope);
    return out;
}

/// A mark as a point: itself, or a circle's centre.
bool actsAsPoint(const record::Mark& mark) {
    return mark.kind == MarkKind::Point
               ? !mark.points.empty()
               : isConic(mark) && (usesFit(mark) || mark.points.size() > 2);
}

bool actsAsLine(const record::Mark& mark) {
    return (mark.kind == MarkKind::Segment || mark.kind == MarkKind::Line) &&
           mark.points.size() >= 2 && mark.points.front() != mark.points.back();
}

/// The point (or the two of a line) with derivatives by the mark's numbers: 2×n or 4×n.
struct Anchor {
    Eigen::VectorXd at;
    Eigen::MatrixXd slopes;
};

std::optional<Anchor> anchorOf(const record::Mark& mark) {
    Anchor out;
    if (isConic(mark) && !usesFit(mark)) {
        const auto points = pointsOf(mark);
        const auto circle = frame::circleThrough(points);
        if (!circle) return std::nullopt;
        out.at = circle->centre;
        out.slopes = circle->jacobian.topRows(2);
        return out;
    }
    if (isConic(mark)) {
        out.at = pointOf(mark.fit->centre);
        out.slopes = Eigen::MatrixXd::Zero(2, mark.fit->radius ? 3 : 5);
        out.slopes.leftCols(2).setIdentity();
        return out;
    }
    const auto n = static_cast<Eigen::Index>(2 * mark.points.size());
    const bool line = mark.kind != MarkKind::Point;
    out.at.resize(line ? 4 : 2);
    out.at.head<2>() = pointOf(mark.points.front());
    out.slopes = Eigen::MatrixXd::Zero(out.at.size(), n);
    out.slopes.topLeftCorner<2, 2>().setIdentity();
    if (line) {
        out.at.tail<2>() = pointOf(mark.points.back());
        out.slopes.bottomRightCorner<2, 2>().setIdentity();
    }
    return out;
}

template <int N>
PixelMeasure joined(const frame::Derived<N>& d, bool angle, const record::Mark& a,
                    const Anchor& ofA, const record::Mark& b, const Anchor& ofB) {
    PixelMeasure out{d.value, angle, {a.id, b.id}, {}};
    const Eigen::Index na = ofA.at.size();
    out.slopes.emplace_back(d.jacobian.leftCols(na) * ofA.slopes);
    out.slopes.emplace_back(d.jacobian.rightCols(N - na) * ofB.slopes);
    return out;
}

}  // namespace

MarkNumbers numbersOf(const record::Mark& mark, double defaultU) {
    return usesFit(mark) ? fitNumbers(mark, defaultU) : pointNumbers(mark, defaultU);
}

PixelResult measured(const record::Mark& mark, DimensionQuantity asked) {
    if (asked == DimensionQuantity::Angle)
        return tl::unexpected(std::string("an angle needs two lines"));
    switch (mark.kind) {
        case MarkKind::Segment: {
            if (mark.points.size() != 2 || mark.points[0] == mark.points[1])
                return tl::unexpected(std::string("a segment needs two different ends"));
            return lengthOf(frame::pointToPoint(pointOf(mark.points[0]), pointOf(mark.points[1])),
                            mark.id);
        }
        case MarkKind::Circle:
        case MarkKind::Ellipse:
            return conicSize(mark, asked);
        case MarkKind::Curve:
            return traceLength(mark);
        case MarkKind::Pattern:
            return pitchOf(mark);
        case MarkKind::Point:
            return tl::unexpected(std::string("a point alone has no length"));
        case MarkKind::Line:
            return tl::unexpected(std::string("a line has no ends: use a segment"));
    }
    return tl::unexpected(std::string("this kind of mark has no length"));
}

PixelResult measured(const record::Mark& a, const record::Mark& b, DimensionQuantity asked) {
    const bool pointA = actsAsPoint(a), pointB = actsAsPoint(b);
    const bool lineA = actsAsLine(a), lineB = actsAsLine(b);
    if (!(pointA || lineA) || !(pointB || lineB))
        return tl::unexpected(std::string("the two marks must be points or lines"));
    if (pointB && lineA) return measured(b, a, asked);
    const auto ofA = anchorOf(a), ofB = anchorOf(b);
    if (!ofA || !ofB) return tl::unexpected(std::string("its points do not lie on one circle"));
    const Point a0 = ofA->at.head<2>(), b0 = ofB->at.head<2>();
    const bool angle = asked == DimensionQuantity::Angle;
    if (angle != (angle && lineA && lineB))
        return tl::unexpected(std::string("an angle needs two lines"));
    if (pointA && pointB) {
        if (a0 == b0) return tl::unexpected(std::string("the two points coincide"));
        return joined(frame::pointToPoint(a0, b0), false, a, *ofA, b, *ofB);
    }
    const Point b1 = ofB->at.tail<2>();
    if (pointA) return joined(frame::pointToLine(a0, b0, b1), false, a, *ofA, b, *ofB);
    const Point a1 = ofA->at.tail<2>();
    if (angle) return joined(frame::angleBetween(a0, a1, b0, b1), true, a, *ofA, b, *ofB);
    return joined(frame::lineToLine(a0, a1, b0, b1), false, a, *ofA, b, *ofB);
}

}  // namespace evidence::network

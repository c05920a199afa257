#include "imaging/mark/mark.h"

#include "evidence-core/frame/circle.h"
#include "evidence-core/frame/ellipse.h"
#include "imaging/mark/crossing.h"
#include "imaging/mark/curve.h"
#include "imaging/mark/ellipse_rim.h"
#include "imaging/mark/pattern.h"
#include "imaging/mark/profile_fit.h"
#include "imaging/mark/repeats.h"
#include "imaging/mark/rim.h"
#include "imaging/mark/straight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::mark {
namespace {

constexpr double kHalfBand = 5;  ///< px to either side of a segment, averaged by its calipers
constexpr double kMargin = 10;   ///< px beyond reach, for the grounds

Eigen::MatrixXd placedCovariance(const MarkRequest& request) {
    const double u = request.uPx.value_or(kPlacedU);
    const auto n = static_cast<Eigen::Index>(2 * request.points.size());
    return Eigen::MatrixXd::Identity(n, n) * u * u;
}

Profile profileOf(Fit fit) {
    return fit == Fit::LineCentre ? Profile::DrawnLine : Profile::Edge;
}

FittedMark placed(const MarkRequest& request) {
    FittedMark mark;
    mark.kind = request.kind;
    mark.made = Fit::None;
    mark.points = request.points;
    mark.covariance = placedCovariance(request);
    return mark;
}

Result<FittedMark> placedCircle(FittedMark mark) {
    const auto circle = evidence::frame::circleThrough(mark.points);
    if (!circle) {
        return refuse(Code::BadValue, "/points",
                      "the points lie on one line or coincide: they give no circle");
    }
    mark.rmsPx = circle->rms;
    mark.circle = CircleFit{circle->centre, circle->radius,
                            circle->jacobian * mark.covariance * circle->jacobian.transpose()};
    return mark;
}

/// Calipers: each end moves along the segment to what its band of pixels shows there.
Result<FittedMark> caliper(const raster::GreyImage& image, const MarkRequest& request) {
    FittedMark mark = placed(request);
    mark.made = request.fit;
    const PixelPoint p = request.points[0];
    const PixelPoint q = request.points[1];
    const double length = (q - p).norm();
    const PixelPoint along = (q - p) / length;
    const PixelPoint across(-along.y(), along.x());
    ProfileSearch search;
    search.profile = profileOf(request.fit);
    search.slope = Slope::Free;
    // The far end's edge must stay out of this end's reach.
    search.reach = std::min(request.searchPx, std::max(1.0, 0.5 * length - 1));
    search.leastNoise = image.roundingNoise();
    double width = 0;
    for (std::size_t end = 0; end < 2; ++end) {
        const Band band =
            bandOf(image, request.points[end], along, search.reach + kMargin, kHalfBand);
        const std::string place = fmt::format("/points/{}", end);
        if (band.unreadable * 4 > static_cast<long>(band.samples.size())) {
            return refuse(Code::OutsideSheet, place,
                          "the end lies outside the sheet, at its border or in a part that could "
                          "not be decoded");
        }
        const auto fit = fitProfile(band.samples, search);
        if (!fit) {
            return refuse(
                Code::NoFit, place,
                fmt::format("no {} stands out of the noise within {:.3g} px of the end; "
                            "place it nearer, or use fit none",
                            search.profile == Profile::Edge ? "edge" : "drawn line", search.reach));
        }
        const double kappa = correlationFactor(fit->lags, along, fit->blur);
        const double bias = request.fit == Fit::Edge ? request.edgeBiasPx : 0;
        const double alongVariance = fit->variance * kappa + bias * bias;
        const double acrossU = request.uPx.value_or(kPlacedU);
        mark.points[end] = request.points[end] + along * fit->offset;
        const auto at = static_cast<Eigen::Index>(2 * end);
        mark.covariance.block<2, 2>(at, at) = alongVariance * along * along.transpose() +
                                              acrossU * acrossU * across * across.transpose();
        mark.used += fit->pixels;
        width += 0.5 * fit->width;
    }
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = width;
    }
    return mark;
}

Result<FittedMark> straightLine(const raster::GreyImage& image, const MarkRequest& request) {
    const PixelPoint p = request.points.front();
    const PixelPoint q = request.points.back();
    const auto fit =
        fitStraight(image, p, q, profileOf(request.fit), request.searchPx, {{0, (q - p).norm()}});
    if (!fit) {
        return tl::unexpected(fit.error());
    }
    FittedMark mark = placed(request);
    mark.made = request.fit;
    const double bias = request.fit == Fit::Edge ? request.edgeBiasPx : 0;
    const auto n = static_cast<Eigen::Index>(mark.points.size());
    // Square to the line as fitted, not as placed: else the placing along it would leak across.
    const PixelPoint along = (fit->along + fit->beta * fit->normal).normalized();
    const PixelPoint across(-along.y(), along.x());
    // Offsets at the points: n × 2 times (alpha, beta).
    Eigen::MatrixX2d by(n, 2);
    for (Eigen::Index i = 0; i < n; ++i) {
        PixelPoint& point = mark.points[static_cast<std::size_t>(i)];
        point += across * across.dot(fit->at(0) - point);
        by.row(i) << 1, (point - p).dot(fit->along);
    }
    const Eigen::MatrixXd offsets =
        by * fit->covariance * by.transpose() + Eigen::MatrixXd::Constant(n, n, bias * bias);
    const double alongU = request.uPx.value_or(kPlacedU);
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index j = 0; j < n; ++j) {
            mark.covariance.block<2, 2>(2 * i, 2 * j) = offsets(i, j) * across * across.transpose();
        }
        mark.covariance.block<2, 2>(2 * i, 2 * i) += alongU * alongU * along * along.transpose();
    }
    mark.rmsPx = fit->rmsPx;
    mark.used = fit->pixels;
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = fit->widthPx;
    }
    return mark;
}

Result<FittedMark> round(const raster::GreyImage& image, const MarkRequest& request) {
    const auto fit = fitRim(image, request.points, profileOf(request.fit), request.searchPx);
    if (!fit) {
        return tl::unexpected(fit.error());
    }
    FittedMark mark = placed(request);
    mark.made = request.fit;
    CircleFit circle = fit->circle;
    const double bias = request.fit == Fit::Edge ? request.edgeBiasPx : 0;
    circle.covariance(2, 2) += bias * bias;
    const auto n = static_cast<Eigen::Index>(mark.points.size());
    // The rough points move radially onto the rim; they follow centre and radius.
    Eigen::MatrixX3d by(2 * n, 3);
    for (Eigen::Index i = 0; i < n; ++i) {
        PixelPoint& point = mark.points[static_cast<std::size_t>(i)];
        const PixelPoint away = (point - circle.centre).normalized();
        point = circle.centre + away * circle.radius;
        by.block<2, 2>(2 * i, 0).setIdentity();
        by.block<2, 1>(2 * i, 2) = away;
    }
    mark.covariance = by * circle.covariance * by.transpose();
    mark.circle = circle;
    mark.rmsPx = fit->rmsPx;
    mark.used = fit->pixels;
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = fit->widthPx;
    }
    return mark;
}

Result<FittedMark> placedEllipse(FittedMark mark) {
    const auto rim = evidence::frame::ellipseThrough(mark.points);
    if (!rim) {
        return refuse(Code::BadValue, "/points",
                      "the points give no ellipse: they lie on a line, or coincide");
    }
    const double degrees = rim->covered * 180 / std::numbers::pi;
    if (degrees < kLeastArc) {
        return refuse(Code::BadValue, "/points",
                      fmt::format("the points span {:.3g} degrees of the ellipse, which leaves its "
                                  "axes open: {} are needed",
                                  degrees, kLeastArc));
    }
    mark.rmsPx = rim->rms;
    const auto& e = rim->ellipse;
    mark.ellipse = EllipseFit{e.centre, e.a, e.b, e.angle,
                              rim->jacobian * mark.covariance * rim->jacobian.transpose()};
    return mark;
}

Result<FittedMark> ellipseRim(const raster::GreyImage& image, const MarkRequest& request) {
    const auto fit = fitEllipseRim(image, request.points, profileOf(request.fit), request.searchPx);
    if (!fit) {
        return tl::unexpected(fit.error());
    }
    FittedMark mark = placed(request);
    mark.made = request.fit;
    EllipseFit ellipse = fit->ellipse;
    const double bias = request.fit == Fit::Edge ? request.edgeBiasPx : 0;
    ellipse.covariance.block<2, 2>(2, 2).array() += bias * bias;  // both half-axes alike
    const evidence::frame::Ellipse rim{ellipse.centre, ellipse.a, ellipse.b, ellipse.angle};
    // The rough points move square to the rim onto it; they follow the ellipse along that normal.
    const auto n = static_cast<Eigen::Index>(mark.points.size());
    Eigen::MatrixXd by = Eigen::MatrixXd::Zero(2 * n, 5);
    for (Eigen::Index i = 0; i < n; ++i) {
        PixelPoint& point = mark.points[static_cast<std::size_t>(i)];
        const double t = rim.foot(point);
        point = rim.at(t);
        const double c = std::cos(rim.angle);
        const double s = std::sin(rim.angle);
        const double dx = rim.a * std::cos(t);
        const double dy = rim.b * std::sin(t);
        by.block<2, 2>(2 * i, 0).setIdentity();
        by.block<2, 1>(2 * i, 2) << c * std::cos(t), s * std::cos(t);
        by.block<2, 1>(2 * i, 3) << -s * std::sin(t), c * std::sin(t);
        by.block<2, 1>(2 * i, 4) << -s * dx - c * dy, c * dx - s * dy;
    }
    mark.covariance = by * ellipse.covariance * by.transpose();
    mark.ellipse = ellipse;
    mark.rmsPx = fit->rmsPx;
    mark.used = fit->pixels;
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = fit->widthPx;
    }
    return mark;
}

/// A mark that stays as placed, or as the mean of its repeated picks.
Result<FittedMark> byHand(const MarkRequest& request) {
    if (request.kind == MarkKind::Pattern) {
        return placedPattern(request);
    }
    FittedMark mark = placed(request);
    if (!request.repeats.empty()) {
        auto mean = meanOfRepeats(request);
        if (!mean) {
            return tl::unexpected(mean.error());
        }
        mark.points = mean->points;
        mark.covariance = mean->covariance;
    }
    switch (request.kind) {
        case MarkKind::Circle:
            return placedCircle(std::move(mark));
        case MarkKind::Ellipse:
            return placedEllipse(std::move(mark));
        case MarkKind::Point:
        case MarkKind::Segment:
        case MarkKind::Line:
        case MarkKind::Curve:
        case MarkKind::Pattern:
            break;
    }
    return mark;
}

/// Between close neighbours (a board's small squares) long arms meet foreign edges: where the whole
/// reach finds nothing, shorter ones are tried.
Result<FittedMark> nearestCrossing(const raster::GreyImage& image, const MarkRequest& request) {
    auto mark = fitCrossing(image, request);
    MarkRequest nearer = request;
    while (!mark && mark.error().code == Code::NoFit && nearer.searchPx > 2) {
        nearer.searchPx = std::max(2.0, 0.6 * nearer.searchPx);
        if (auto found = fitCrossing(image, nearer)) {
            return found;
        }
    }
    return mark;
}

std::optional<Refusal> wrongCount(const MarkRequest& request) {
    struct Count {
        std::size_t least;
        std::size_t most;
    };
    Count count{1, 1};
    switch (request.kind) {
        case MarkKind::Point:
            break;
        case MarkKind::Segment:
            count = {2, 2};
            break;
        case MarkKind::Line:
            count = {2, 10000};
            break;
        case MarkKind::Circle:
            count = {3, 10000};
            break;
        case MarkKind::Ellipse:
            count = {5, 10000};
            break;
        case MarkKind::Curve:
            count = {2, 10000};
            break;
        case MarkKind::Pattern:
            count = {3, 10000};
            break;
    }
    const std::size_t n = request.points.size();
    if (n < count.least || n > count.most) {
        return Refusal{Code::BadValue, "/points",
                       fmt::format("a {} takes {}{} point(s), not {}", kindName(request.kind),
                                   count.least, count.most > count.least ? " or more" : "", n)};
    }
    return std::nullopt;
}

std::optional<Refusal> wrongPlace(const raster::GreyImage& image, const MarkRequest& request) {
    for (std::size_t i = 0; i < request.points.size(); ++i) {
        const PixelPoint& p = request.points[i];
        const std::string place = fmt::format("/points/{}", i);
        if (!p.allFinite()) {
            return Refusal{Code::NotFinite, place, "a coordinate is not a finite number"};
        }
        const int x = static_cast<int>(std::lround(std::clamp(p.x(), -9.0, 1e9)));
        const int y = static_cast<int>(std::lround(std::clamp(p.y(), -9.0, 1e9)));
        if (!image.holds(x, y)) {
            return Refusal{
                Code::OutsideSheet, place,
                fmt::format("({:.10g}, {:.10g}) is outside the sheet, which is {} x {} px", p.x(),
                            p.y(), image.width(), image.height())};
        }
        if (!image.readable(x, y)) {
            return Refusal{
                Code::OutsideSheet, place,
                fmt::format("({:.10g}, {:.10g}) lies in a part of the picture that could "
                            "not be decoded",
                            p.x(), p.y())};
        }
    }
    return std::nullopt;
}

std::optional<Refusal> wrongFit(const MarkRequest& request) {
    const bool point = request.kind == MarkKind::Point;
    const bool fits =
        request.fit == Fit::None || (point ? request.fit != Fit::Edge : request.fit != Fit::Corner);
    if (!fits) {
        return Refusal{
            Code::BadValue, "/fit",
            fmt::format("a {} has no fit {}; it takes {}", kindName(request.kind),
                        fitName(request.fit),
                        point ? "none, corner or line-centre" : "none, edge or line-centre")};
    }
    return std::nullopt;
}

std::optional<Refusal> wrongNumbers(const MarkRequest& request) {
    if (!(request.searchPx >= 1 && request.searchPx <= 100)) {
        return Refusal{Code::BadValue, "/search_px", "search_px is a number from 1 to 100"};
    }
    if (request.uPx && !(*request.uPx > 0 && *request.uPx < 1e6)) {
        return Refusal{Code::BadValue, "/u_px", "u_px is a number of pixels above zero"};
    }
    if (request.kind == MarkKind::Segment || request.kind == MarkKind::Line) {
        if (!((request.points.back() - request.points.front()).norm() >= 1e-9)) {
            return Refusal{Code::BadValue, "/points", "the two ends coincide"};
        }
    }
    return std::nullopt;
}

}  // namespace

std::string_view kindName(MarkKind kind) {
    switch (kind) {
        case MarkKind::Point:
            return "point";
        case MarkKind::Segment:
            return "segment";
        case MarkKind::Line:
            return "line";
        case MarkKind::Circle:
            return "circle";
        case MarkKind::Ellipse:
            return "ellipse";
        case MarkKind::Curve:
            return "curve";
        case MarkKind::Pattern:
            return "pattern";
    }
    return "point";
}

std::string_view fitName(Fit fit) {
    switch (fit) {
        case Fit::None:
            return "none";
        case Fit::Edge:
            return "edge";
        case Fit::LineCentre:
            return "line-centre";
        case Fit::Corner:
            return "corner";
    }
    return "none";
}

Result<FittedMark> fitMark(const raster::GreyImage& image, const MarkRequest& request) {
    for (const auto& check : {wrongFit(request), wrongCount(request), wrongPlace(image, request)}) {
        if (check) {
            return tl::unexpected(*check);
        }
    }
    if (auto wrong = wrongNumbers(request)) {
        return tl::unexpected(*std::move(wrong));
    }
    if (request.fit == Fit::None) {
        return byHand(request);
    }
    switch (request.kind) {
        case MarkKind::Point:
            return nearestCrossing(image, request);
        case MarkKind::Segment:
            return caliper(image, request);
        case MarkKind::Line:
            return straightLine(image, request);
        case MarkKind::Circle:
            return round(image, request);
        case MarkKind::Ellipse:
            return ellipseRim(image, request);
        case MarkKind::Curve:
            return traceCurve(image, request);
        case MarkKind::Pattern:
            return fitPattern(image, request);
    }
    return placed(request);
}

}  // namespace imaging::mark

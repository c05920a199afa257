#include "imaging/task/lens_of_task.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>

namespace imaging::task {
namespace {

using frame::LensSolution;
using frame::StraightLine;
using mark::FittedMark;
using mark::MarkKind;
using mark::PixelPoint;

StraightLine asLine(const FittedMark& mark) {
    StraightLine line;
    line.points = mark.points;
    line.covariances = mark.pointCovariances;
    for (std::size_t i = line.covariances.size(); i < line.points.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(2 * i);
        line.covariances.emplace_back(mark.covariance.block<2, 2>(at, at));
    }
    return line;
}

/// A fitted line as a trace: where its edge or drawn line really runs.
Result<FittedMark> traced(const raster::GreyImage& image, const mark::MarkRequest& line) {
    mark::MarkRequest curve = line;
    curve.kind = MarkKind::Curve;
    return mark::fitMark(image, curve);
}

/// The pixel that `straightened` takes to `wanted`: Newton's method, for the lens is smooth there.
PixelPoint bent(const evidence::frame::Lens& lens, const PixelPoint& wanted,
                const PixelPoint& near) {
    PixelPoint p = near;
    for (int i = 0; i < 50; ++i) {
        const auto s = evidence::frame::straightened(lens, p);
        const PixelPoint move = s.byPixel.inverse() * (wanted - s.at);
        p += move;
        if (move.norm() < 1e-10) {
            break;
        }
    }
    return p;
}

/// First and last point of the straight line through the trace freed of distortion, back in the
/// picture.
void putRight(FittedMark& line, const StraightLine& trace, const evidence::frame::Lens& lens) {
    std::vector<PixelPoint> straight;
    PixelPoint mean = PixelPoint::Zero();
    for (const PixelPoint& p : trace.points) {
        straight.push_back(evidence::frame::straightened(lens, p).at);
        mean += straight.back() / static_cast<double>(trace.points.size());
    }
    const PixelPoint along = (straight.back() - straight.front()).normalized();
    const PixelPoint normal(-along.y(), along.x());
    Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
    Eigen::Vector2d b = Eigen::Vector2d::Zero();
    double chi2 = 0;
    const auto rowOf = [&](std::size_t i) {
        return Eigen::Vector2d(1, along.dot(straight[i] - mean));
    };
    const auto varianceOf = [&](std::size_t i) {
        const auto by = evidence::frame::straightened(lens, trace.points[i]).byPixel;
        return normal.dot(by * trace.covariances[i] * by.transpose() * normal);
    };
    for (std::size_t i = 0; i < straight.size(); ++i) {
        a += rowOf(i) * rowOf(i).transpose() / varianceOf(i);
        b += rowOf(i) * normal.dot(straight[i] - mean) / varianceOf(i);
    }
    const Eigen::Vector2d x = a.ldlt().solve(b);
    for (std::size_t i = 0; i < straight.size(); ++i) {
        const double r = normal.dot(straight[i] - mean) - rowOf(i).dot(x);
        chi2 += r * r / varianceOf(i);
    }
    const double freedom = static_cast<double>(straight.size()) - 2;
    const Eigen::Matrix2d covariance =
        a.inverse() * (freedom > 0 ? std::max(1.0, chi2 / freedom) : 1.0);
    const std::vector<PixelPoint> ends = {straight.front(), straight.back()};
    line.points.clear();
    line.covariance = Eigen::MatrixXd::Zero(4, 4);
    Eigen::Matrix<double, 4, 2> by;
    for (std::size_t e = 0; e < 2; ++e) {
        const double t = along.dot(ends[e] - mean);
        const PixelPoint wanted = mean + t * along + (x(0) + x(1) * t) * normal;
        const PixelPoint near = e == 0 ? trace.points.front() : trace.points.back();
        line.points.push_back(bent(lens, wanted, near));
        const Eigen::Matrix2d back =
            evidence::frame::straightened(lens, line.points.back()).byPixel.inverse();
        const auto at = static_cast<Eigen::Index>(2 * e);
        by.block<2, 2>(at, 0) = back * normal * Eigen::RowVector2d(1, t);
        line.covariance.block<2, 2>(at, at) =
            mark::kPlacedU * mark::kPlacedU * back * along * along.transpose() * back.transpose();
    }
    line.covariance += by * covariance * by.transpose();
}

}  // namespace

Result<std::optional<LensSolution>> lensOf(const Task& task, const raster::GreyImage& image,
                                           std::vector<FittedMark>& marks) {
    if (!task.frame || task.frame->straight.empty()) {
        return std::optional<LensSolution>();
    }
    std::vector<StraightLine> lines;
    for (std::size_t i = 0; i < task.frame->straight.size(); ++i) {
        const std::size_t which = task.frame->straight[i];
        const mark::MarkRequest& request = task.marks[which].request;
        const std::string place = fmt::format("/frame/straight/{}", i);
        const bool fitted = request.fit != mark::Fit::None;
        const bool fits = request.kind == MarkKind::Curve ||
                          (request.kind == MarkKind::Line && (fitted || request.points.size() > 2));
        if (!fits) {
            return refuse(Code::BadValue, place,
                          fmt::format("mark \"{}\" is no straight line to go by: a curve, a line "
                                      "of three points or more, or a fitted line is needed",
                                      task.marks[which].id));
        }
        if (request.kind == MarkKind::Line && fitted) {
            const auto trace = traced(image, request);
            if (!trace) {
                return refuse(
                    trace.error().code, place,
                    fmt::format("mark \"{}\": {}", task.marks[which].id, trace.error().help));
            }
            lines.push_back(asLine(*trace));
        } else {
            lines.push_back(asLine(marks[which]));
        }
    }
    auto lens = frame::solveLens(lines, image.width(), image.height());
    if (!lens) {
        return refuse(lens.error().code, "/frame/straight", lens.error().help);
    }
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const mark::MarkRequest& request = task.marks[i].request;
        if (request.kind != MarkKind::Line || request.fit == mark::Fit::None) {
            continue;
        }
        // Where the trace is lost (a row of separate pieces) the straight fit stays.
        if (const auto trace = traced(image, request)) {
            putRight(marks[i], asLine(*trace), lens->lens);
        }
    }
    return std::optional(*std::move(lens));
}

}  // namespace imaging::task

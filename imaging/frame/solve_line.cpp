#include "imaging/frame/solve_line.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <cmath>

namespace imaging::frame {
namespace {

using Eigen::Vector2d;
using Eigen::VectorXd;
using evidence::frame::LineMap;

Carrier carrierOf(const LineMap& map, int first) {
    return [map, first](const TrackedPoint& pixel) -> std::optional<TrackedPoint> {
        const auto place = evidence::frame::placeAlong(map, pixel.at());
        if (!place) {
            return std::nullopt;
        }
        const Tracked a = variable(0, first);
        const Tracked b = variable(0, first + 1);
        const Tracked c = variable(0, first + 2);
        return TrackedPoint{through<5>(*place, {&a, &b, &c, &pixel.x, &pixel.y}), constant(0)};
    };
}

}  // namespace

Carrier LineSolution::carrier(int first) const {
    return carrierOf(map, first);
}

Result<LineSolution> solveLine(const Inputs& inputs, const Known& known) {
    if (known.points.size() < 3) {
        return refuse(Code::NoSolution, "/points",
                      "a line frame needs three or more known points on one straight line");
    }
    const VectorXd values = Eigen::Map<const VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, known.lens);
    std::vector<Vector2d> pixels;
    for (const KnownPoint& point : known.points) {
        pixels.push_back(reader.point(point.feature, 0).at());
    }
    const Extent extent = extentOf(pixels);
    Eigen::Matrix2d spread = Eigen::Matrix2d::Zero();
    for (const Vector2d& p : pixels) {
        spread += (p - extent.middle) * (p - extent.middle).transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(spread);
    LineSolution solution;
    solution.map.origin = extent.middle;
    solution.map.unit = extent.size;
    solution.map.along = eigen.eigenvectors().col(1);
    // From the first known point to the last, so that signs follow the list.
    if (solution.map.along.dot(pixels.back() - pixels.front()) < 0) {
        solution.map.along = -solution.map.along;
    }
    for (const Vector2d& p : pixels) {
        if (std::abs(solution.map.beside(p)) > 0.1 * extent.size) {
            return refuse(Code::NoSolution, "/points",
                          fmt::format("the known points do not lie on one straight line: one is "
                                      "{:.3g} px beside it",
                                      std::abs(solution.map.beside(p))));
        }
    }
    // X(1 + c n) = a n + b, linear in a, b, c.
    Eigen::MatrixX3d rows(static_cast<Eigen::Index>(pixels.size()), 3);
    VectorXd right(rows.rows());
    for (Eigen::Index i = 0; i < rows.rows(); ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double n =
            (pixels[k] - solution.map.origin).dot(solution.map.along) / solution.map.unit;
        right(i) = known.points[k].at[0].value;
        rows.row(i) << n, 1, -n * right(i);
    }
    // Scaled, for X in inches may be large.
    const double size = std::max(1e-9, right.cwiseAbs().maxCoeff());
    rows.col(2) /= size;
    const Eigen::ColPivHouseholderQR<Eigen::MatrixX3d> qr(rows);
    const auto diagonal = qr.matrixR().diagonal().cwiseAbs();
    const char* unclear =
        "two of the known points coincide, in the picture or in inches: give "
        "three that stand well apart";
    if (!(diagonal.minCoeff() > 1e-6 * diagonal.maxCoeff())) {
        return refuse(Code::NoSolution, "/points", unclear);
    }
    Eigen::Vector3d start = qr.solve(right);
    start(2) /= size;
    const LineMap base = solution.map;
    const int first = inputs.size();
    const Conditions conditions =
        [&](const VectorXd& z, const VectorXd& parameters) -> std::optional<std::vector<Tracked>> {
        LineMap map = base;
        map.parameters = parameters;
        const Reader at(z, known.lens);
        const Carrier carry = carrierOf(map, first);
        std::vector<Tracked> residuals;
        for (const KnownPoint& point : known.points) {
            const auto place = carry(at.point(point.feature, 0));
            if (!place) {
                return std::nullopt;
            }
            residuals.push_back(place->x - point.at[0].read(at));
        }
        for (const KnownSpan& span : known.spans) {
            const auto length = carriedLength(at, span.feature, carry);
            if (!length) {
                return std::nullopt;
            }
            residuals.push_back(*length - at.input(span.length));
        }
        return residuals;
    };
    auto adjustment = adjust(inputs, start, conditions);
    if (!adjustment) {
        return refuse(Code::NoSolution, "/points",
                      "the known points' order or spacing fits no straight line in perspective: "
                      "check their places");
    }
    solution.map.parameters = adjustment->parameters;
    solution.names = {"a", "b", "c"};
    solution.pointRow = 0;
    solution.rowsOfPoint = 1;
    solution.spanRow = static_cast<int>(known.points.size());
    solution.adjustment = *std::move(adjustment);
    // How well the length between the outer points is held by the parameters alone.
    const auto& covariance = solution.adjustment.covariance;
    if (!(std::sqrt(covariance(2, 2)) < 0.5)) {
        return refuse(Code::NoSolution, "/points", unclear);
    }
    return solution;
}

}  // namespace imaging::frame

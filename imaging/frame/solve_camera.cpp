#include "imaging/frame/solve_camera.h"

#include <Eigen/Dense>
#include <fmt/format.h>
#include <opencv2/calib3d.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::frame {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::VectorXd;
using evidence::frame::CameraMap;

constexpr int kOwn = CameraMap::kParameters;
constexpr double kAlong = 5 * std::numbers::pi / 180;

/// A known length along an axis: its first end is a point of its own, the world's origin or free.
struct Rod {
    Feature feature;
    int length = 0;
    int axis = 0;
    double sense = 1;  ///< whether it was drawn along the axis or against it
    int point = -1;    ///< first of three parameters of its first end; −1: the origin
};

struct Problem {
    const Known& known;
    int first = 0;      ///< index of the first parameter among all variables
    int principal = 0;  ///< index of the principal point's prior
    std::vector<std::vector<Feature>> axes;
    std::vector<Rod> rods;
};

std::array<Tracked, kOwn> ownParameters(const CameraMap& map, int first) {
    std::array<Tracked, kOwn> own;
    for (int i = 0; i < kOwn; ++i) {
        own[static_cast<std::size_t>(i)] = variable(map.parameters(i), first + i);
    }
    return own;
}

TrackedPoint trackedPixel(const evidence::frame::Projection& p,
                          const std::array<Tracked, kOwn>& own,
                          const std::array<Tracked, 3>& world) {
    const auto coordinate = [&](Eigen::Index row) {
        std::vector<std::pair<double, const Tracked*>> parts;
        for (int i = 0; i < kOwn; ++i) {
            parts.emplace_back(p.byModel(row, i), &own[static_cast<std::size_t>(i)]);
        }
        for (int i = 0; i < 3; ++i) {
            parts.emplace_back(p.byPoint(row, i), &world[static_cast<std::size_t>(i)]);
        }
        return chained(p.pixel(row), parts);
    };
    return {coordinate(0), coordinate(1)};
}

CameraMap withParameters(const Matrix3d& start, const VectorXd& theta) {
    CameraMap map;
    map.start = start;
    map.parameters = theta.head<kOwn>();
    return map;
}

std::optional<std::vector<Tracked>> conditionsAt(const Problem& problem, const Matrix3d& start,
                                                 const VectorXd& z, const VectorXd& theta) {
    const CameraMap map = withParameters(start, theta);
    const Reader reader(z, problem.known.lens);
    const auto own = ownParameters(map, problem.first);
    std::vector<Tracked> rows;
    const auto fit = [&](const TrackedPoint& pixel, const std::array<Tracked, 3>& world) {
        const auto p = evidence::frame::projected(
            map, Vector3d(world[0].value, world[1].value, world[2].value));
        if (!p) {
            return false;
        }
        const TrackedPoint there = trackedPixel(*p, own, world);
        rows.push_back(there.x - pixel.x);
        rows.push_back(there.y - pixel.y);
        return true;
    };
    for (const KnownPoint& point : problem.known.points) {
        const std::array<Tracked, 3> world = {point.at[0].read(reader), point.at[1].read(reader),
                                              point.at[2].read(reader)};
        if (!fit(reader.point(point.feature, 0), world)) {
            return std::nullopt;
        }
    }
    for (std::size_t axis = 0; axis < problem.axes.size(); ++axis) {
        const Vector3d direction = Vector3d::Unit(static_cast<Eigen::Index>(axis));
        for (const Feature& line : problem.axes[axis]) {
            const bool rod =
                std::any_of(problem.rods.begin(), problem.rods.end(),
                            [&line](const Rod& r) { return r.feature.first == line.first; });
            if (rod) {
                continue;  // both its ends are fitted, and say the same
            }
            const TrackedPoint p = reader.firstPoint(line);
            const TrackedPoint q = reader.lastPoint(line);
            const auto off = evidence::frame::offDirection(map, direction, p.at(), q.at());
            rows.push_back(through<13>(off, {&own[0], &own[1], &own[2], &own[3], &own[4], &own[5],
                                             &own[6], &own[7], &own[8], &p.x, &p.y, &q.x, &q.y}));
        }
    }
    for (const Rod& rod : problem.rods) {
        std::array<Tracked, 3> from = {constant(0), constant(0), constant(0)};
        if (rod.point >= 0) {
            for (int i = 0; i < 3; ++i) {
                from[static_cast<std::size_t>(i)] =
                    variable(theta(rod.point + i), problem.first + rod.point + i);
            }
        }
        auto to = from;
        const Tracked length = reader.input(rod.length);
        auto& along = to[static_cast<std::size_t>(rod.axis)];
        along = along + rod.sense * length;
        if (!fit(reader.firstPoint(rod.feature), from) || !fit(reader.lastPoint(rod.feature), to)) {
            return std::nullopt;
        }
    }
    rows.push_back(own[CameraMap::Principal] - reader.input(problem.principal));
    rows.push_back(own[CameraMap::Principal + 1] - reader.input(problem.principal + 1));
    return rows;
}

struct Start {
    Matrix3d rotation;
    VectorXd theta;
};

std::vector<Start> startsFromPoints(const Inputs& inputs, const Problem& problem, double width) {
    const VectorXd values = Eigen::Map<const VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, problem.known.lens);
    std::vector<cv::Point3d> world;
    std::vector<cv::Point2d> pixels;
    for (const KnownPoint& point : problem.known.points) {
        world.emplace_back(point.at[0].value, point.at[1].value, point.at[2].value);
        const Vector2d p = reader.point(point.feature, 0).at();
        pixels.emplace_back(p.x(), p.y());
    }
    const double px = inputs.value(problem.principal);
    const double py = inputs.value(problem.principal + 1);
    std::vector<Start> starts;
    std::vector<double> costs;
    for (const double factor : {0.5, 0.7, 1.0, 1.4, 2.0, 3.0, 5.0, 9.0}) {
        const double f = factor * width;
        const cv::Matx33d k(f, 0, px, 0, f, py, 0, 0, 1);
        std::vector<cv::Mat> turns;
        std::vector<cv::Mat> shifts;
        try {
            cv::solvePnPGeneric(world, pixels, k, cv::noArray(), turns, shifts, false,
                                cv::SOLVEPNP_SQPNP);
        } catch (const cv::Exception&) {
            continue;  // it asserts on some layouts; the other starts remain
        }
        for (std::size_t i = 0; i < turns.size(); ++i) {
            cv::Matx33d r;
            cv::Rodrigues(turns[i], r);
            Start start;
            start.rotation << r(0, 0), r(0, 1), r(0, 2), r(1, 0), r(1, 1), r(1, 2), r(2, 0),
                r(2, 1), r(2, 2);
            const Vector3d shift(shifts[i].at<double>(0), shifts[i].at<double>(1),
                                 shifts[i].at<double>(2));
            start.theta = VectorXd::Zero(kOwn);
            start.theta.segment<3>(CameraMap::Centre) = -start.rotation.transpose() * shift;
            start.theta(CameraMap::LogF) = std::log(f);
            start.theta.tail<2>() << px, py;
            if (start.theta.allFinite() && start.rotation.allFinite()) {
                const Conditions conditions = [&](const VectorXd& z, const VectorXd& t) {
                    return conditionsAt(problem, start.rotation, z, t);
                };
                costs.push_back(costAt(inputs, start.theta, conditions));
                starts.push_back(start);
            }
        }
    }
    // The three best: their focal lengths bracket the truth.
    std::vector<std::size_t> order(starts.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::sort(order.begin(), order.end(),
              [&costs](std::size_t a, std::size_t b) { return costs[a] < costs[b]; });
    std::vector<Start> best;
    for (std::size_t i = 0; i < std::min<std::size_t>(3, order.size()); ++i) {
        if (std::isfinite(costs[order[i]])) {
            best.push_back(starts[order[i]]);
        }
    }
    return best;
}

/// Picture direction in which a point at `pixel` moves when it goes along `axis` (camera's axes).
Vector2d course(const Vector3d& axis, double f, const Vector2d& fromPrincipal) {
    return f * axis.head<2>() - axis.z() * fromPrincipal;
}

Result<Start> startFromDirections(const Inputs& inputs, Problem& problem) {
    const VectorXd values = Eigen::Map<const VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, problem.known.lens);
    const Vector2d principal(inputs.value(problem.principal), inputs.value(problem.principal + 1));
    const Extent extent = extentOf(pointsOf(inputs, problem.known));
    std::vector<Vector3d> meeting;  // about the principal point, px, homogeneous
    for (const auto& group : problem.axes) {
        Vector3d v = *vanishingPoint(reader, group, extent);
        v.head<2>() = v.head<2>() * extent.size + v.z() * (extent.middle - principal);
        meeting.push_back(v);
    }
    // f² = −(v₁·v₂)/(z₁z₂), each pair with the weight of what it says.
    double f2 = 0;
    double weight = 0;
    for (std::size_t i = 0; i < meeting.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const double z = meeting[i].z() * meeting[j].z();
            f2 -= meeting[i].head<2>().dot(meeting[j].head<2>()) * z;
            weight += z * z;
        }
    }
    f2 = weight > 0 ? f2 / weight : -1;
    if (!(f2 > 0) || !std::isfinite(f2)) {
        return refuse(Code::NoSolution, "/parallel",
                      "the groups of parallel lines do not meet like directions square to each "
                      "other, seen from the principal point: check the groups, or give the "
                      "principal point of a cropped print");
    }
    const double f = std::sqrt(f2);
    const auto axisOf = [&](std::size_t k) {
        const Vector3d& v = meeting[k];
        Vector3d axis(v.x(), v.y(), v.z() * f);
        axis.normalize();
        const Feature& drawn = problem.axes[k].front();
        const Vector2d p = reader.firstPoint(drawn).at();
        const Vector2d q = reader.lastPoint(drawn).at();
        return course(axis, f, p - principal).dot(q - p) < 0 ? Vector3d(-axis) : axis;
    };
    Matrix3d r;
    r.col(0) = axisOf(0);
    r.col(1) = axisOf(1);
    r.col(2) = problem.axes.size() > 2 ? axisOf(2) : Vector3d(r.col(0).cross(r.col(1)));
    if (r.determinant() < 0) {
        // Three axes drawn left-handed: the world is mirrored, which no camera can show. The third
        // is turned round.
        r.col(2) = -r.col(2);
    }
    const Eigen::JacobiSVD<Matrix3d> svd(r, Eigen::ComputeFullU | Eigen::ComputeFullV);
    Start start;
    start.rotation = svd.matrixU() * svd.matrixV().transpose();

    // Known lengths: which axis, which sense, and the depth that the first gives.
    int next = kOwn;
    std::vector<double> ends;
    Vector3d place = Vector3d::Zero();  // of the first rod's first end, in the camera
    for (std::size_t i = 0; i < problem.known.spans.size(); ++i) {
        const KnownSpan& span = problem.known.spans[i];
        Rod rod;
        rod.feature = span.feature;
        rod.length = span.length;
        rod.axis = -1;
        for (std::size_t k = 0; k < problem.axes.size(); ++k) {
            for (const Feature& line : problem.axes[k]) {
                if (line.first == span.feature.first) {
                    rod.axis = static_cast<int>(k);
                }
            }
        }
        const Vector2d p = reader.firstPoint(span.feature).at();
        const Vector2d q = reader.lastPoint(span.feature).at();
        int near = 0;
        for (int k = 0; k < 3 && rod.axis < 0; ++k) {
            const Vector2d c = course(start.rotation.col(k), f, 0.5 * (p + q) - principal);
            const double sine = std::abs(c.x() * (q - p).y() - c.y() * (q - p).x()) /
                                (c.norm() * (q - p).norm() + 1e-300);
            if (sine < std::sin(kAlong)) {
                ++near;
                rod.axis = near == 1 ? k : -1;
            }
        }
        if (rod.axis < 0) {
            return refuse(Code::NoSolution, fmt::format("/references/{}", i),
                          "the known length lies along none of the directions: give one that does, "
                          "and put its mark into that group of parallels");
        }
        const Vector3d axis = start.rotation.col(rod.axis);
        rod.sense = course(axis, f, p - principal).dot(q - p) < 0 ? -1 : 1;
        // λ·rp + s·L·axis = μ·rq
        const Vector3d rp((p - principal).x() / f, (p - principal).y() / f, 1);
        const Vector3d rq((q - principal).x() / f, (q - principal).y() / f, 1);
        Eigen::Matrix<double, 3, 2> system;
        system << rp, -rq;
        const Vector2d depth = system.colPivHouseholderQr().solve(
            Vector3d(-rod.sense * inputs.value(span.length) * axis));
        if (!(depth(0) > 0 && depth(1) > 0)) {
            return refuse(Code::NoSolution, fmt::format("/references/{}", i),
                          "the known length points straight at the camera and gives no scale");
        }
        const Vector3d at = depth(0) * rp;
        if (i == 0) {
            place = at;
            rod.point = -1;
        } else {
            rod.point = next;
            next += 3;
            const Vector3d world = start.rotation.transpose() * (at - place);
            ends.insert(ends.end(), world.data(), world.data() + 3);
        }
        problem.rods.push_back(rod);
    }
    start.theta = VectorXd::Zero(next);
    start.theta.segment<3>(CameraMap::Centre) = -start.rotation.transpose() * place;
    start.theta(CameraMap::LogF) = std::log(f);
    start.theta.segment<2>(CameraMap::Principal) = principal;
    for (std::size_t i = 0; i < ends.size(); ++i) {
        start.theta(kOwn + static_cast<Eigen::Index>(i)) = ends[i];
    }
    return start;
}

/// Known points on one line leave the camera free to turn about it.
bool onOneLine(const Known& known) {
    Vector3d mean = Vector3d::Zero();
    const auto n = static_cast<double>(known.points.size());
    const auto at = [](const KnownPoint& p) {
        return Vector3d(p.at[0].value, p.at[1].value, p.at[2].value);
    };
    for (const KnownPoint& p : known.points) {
        mean += at(p) / n;
    }
    Matrix3d spread = Matrix3d::Zero();
    for (const KnownPoint& p : known.points) {
        spread += (at(p) - mean) * (at(p) - mean).transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Matrix3d> eigen(spread);
    return !(eigen.eigenvalues()(1) > 1e-8 * eigen.eigenvalues()(2));
}

}  // namespace

Carrier CameraSolution::carrier(const evidence::frame::SpacePlane& plane, int first) const {
    const CameraMap camera = map;
    return [camera, plane, first](const TrackedPoint& pixel) -> std::optional<TrackedPoint> {
        const auto position = evidence::frame::carried(camera, plane, pixel.at());
        if (!position) {
            return std::nullopt;
        }
        const auto own = ownParameters(camera, first);
        const auto coordinate = [&](Eigen::Index row) {
            std::vector<std::pair<double, const Tracked*>> parts = {
                {position->byPixel(row, 0), &pixel.x}, {position->byPixel(row, 1), &pixel.y}};
            for (int i = 0; i < kOwn; ++i) {
                parts.emplace_back(position->byModel(row, i), &own[static_cast<std::size_t>(i)]);
            }
            return chained(position->at(row), parts);
        };
        return TrackedPoint{coordinate(0), coordinate(1)};
    };
}

Tracked CameraSolution::distance(const evidence::frame::SpacePlane& plane, int first) const {
    const auto d = evidence::frame::distanceTo(map, plane);
    const auto own = ownParameters(map, first);
    std::array<const Tracked*, kOwn> arguments{};
    for (std::size_t i = 0; i < own.size(); ++i) {
        arguments[i] = &own[i];
    }
    return through<kOwn>(d, arguments);
}

Result<CameraSolution> solveCamera(const Inputs& inputs, const Known& known, int principal,
                                   double pictureWidth) {
    Problem problem{known, inputs.size(), principal, {}, {}};
    CameraSolution solution;
    std::vector<Start> starts;
    if (!known.points.empty()) {
        if (known.points.size() < 6) {
            return refuse(Code::NoSolution, "/points",
                          fmt::format("a camera frame needs six known points or more, not {}; or "
                                      "two groups of parallel lines square to each other and a "
                                      "known length",
                                      known.points.size()));
        }
        if (onOneLine(known)) {
            return refuse(Code::NoSolution, "/points",
                          "the known points lie on one line, about which the camera may turn");
        }
        if (!known.parallel.empty() || !known.spans.empty()) {
            solution.notes.emplace_back(
                "beside known points, parallels and lengths are not used by this frame");
        }
        starts = startsFromPoints(inputs, problem, pictureWidth);
    } else {
        problem.axes = known.parallel;
        if (problem.axes.empty()) {
            problem.axes = known.ground;
            if (!known.vertical.empty() && problem.axes.size() <= 2) {
                problem.axes.push_back(known.vertical);
            }
        }
        if (problem.axes.size() < 2 || problem.axes.size() > 3) {
            return refuse(Code::NoSolution, "/parallel",
                          "a camera frame needs six known points, or two or three groups of "
                          "parallel lines in directions square to each other");
        }
        for (const auto& group : problem.axes) {
            if (group.size() < 2) {
                return refuse(Code::NoSolution, "/parallel",
                              "each group of parallel lines needs two lines or more");
            }
        }
        if (known.spans.empty()) {
            return refuse(Code::NoSolution, "/references",
                          "without a known length a camera frame has no scale");
        }
        auto start = startFromDirections(inputs, problem);
        if (!start) {
            return tl::unexpected(start.error());
        }
        starts.push_back(*std::move(start));
        solution.notes.emplace_back(
            "axes x, y (z) run along the groups of parallel lines in their order, taken as square "
            "to each other; the origin is the first end of the first known length");
    }
    std::optional<Adjustment> best;
    for (const Start& start : starts) {
        const Conditions conditions = [&](const VectorXd& z, const VectorXd& theta) {
            return conditionsAt(problem, start.rotation, z, theta);
        };
        auto tried = adjust(inputs, start.theta, conditions);
        if (tried && (!best || tried->chi2 < best->chi2)) {
            best = *std::move(tried);
            solution.map = withParameters(start.rotation, best->parameters);
            if (best->redundancy > 0 && best->chi2 < 2 * best->redundancy + 6) {
                break;
            }
        }
    }
    const char* place = known.points.empty() ? "/parallel" : "/points";
    if (!best) {
        return refuse(Code::NoSolution, place,
                      known.points.empty()
                          ? "the parallels do not determine the camera: lines that stay parallel "
                            "in the picture too leave the focal length open"
                          : "no camera sees the known points where their marks are: check which "
                            "mark is which point");
    }
    solution.adjustment = *std::move(best);
    const double uLogF = std::sqrt(solution.adjustment.covariance(6, 6));
    if (!(uLogF < 0.5)) {
        return refuse(
            Code::NoSolution, place,
            "the layout leaves the focal length open (its doubt is over a half): points "
            "in one plane seen square on, or parallels that stay parallel in the picture");
    }
    solution.pointRow = known.points.empty() ? -1 : 0;
    solution.rowsOfPoint = 2;
    solution.names = {"turn_x",   "turn_y",    "turn_z",      "camera_x",   "camera_y",
                      "camera_z", "log_focal", "principal_x", "principal_y"};
    for (Eigen::Index i = kOwn; i < solution.adjustment.parameters.size(); ++i) {
        solution.names.push_back(fmt::format("end_{}", i - kOwn + 1));
    }
    return solution;
}

}  // namespace imaging::frame

#include "imaging/frame/solve_upright.h"

#include <Eigen/Dense>

#include <cmath>

namespace imaging::frame {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::VectorXd;
using evidence::frame::UprightMap;

constexpr int kOwn = UprightMap::kParameters;

struct Five {
    std::array<Tracked, kOwn> parameters;
    explicit Five(int first) {
        for (int i = 0; i < kOwn; ++i) {
            parameters[static_cast<std::size_t>(i)] = variable(0, first + i);
        }
    }
    [[nodiscard]] Tracked nine(const evidence::frame::Derived<9>& d, const TrackedPoint& p,
                               const TrackedPoint& q) const {
        return through<9>(d, {&parameters[0], &parameters[1], &parameters[2], &parameters[3],
                              &parameters[4], &p.x, &p.y, &q.x, &q.y});
    }
};

double sideOf(const UprightMap& map, const Vector2d& pixel) {
    const Vector2d n = (pixel - map.centre) / map.unit;
    return std::cos(map.parameters(0)) * n.x() + std::sin(map.parameters(0)) * n.y() -
           map.parameters(1);
}

UprightMap withParameters(UprightMap map, const VectorXd& parameters) {
    map.parameters = parameters.head<kOwn>();
    return map;
}

/// Base and top of a mark: the base is the end farther into the ground's side.
std::pair<TrackedPoint, TrackedPoint> baseAndTop(const UprightMap& map, double groundSide,
                                                 const TrackedPoint& p, const TrackedPoint& q) {
    const bool first = groundSide * (sideOf(map, p.at()) - sideOf(map, q.at())) >= 0;
    return first ? std::pair(p, q) : std::pair(q, p);
}

/// The verticals: those named, and known heights that are not among them.
std::vector<Feature> verticalsOf(const Known& known) {
    std::vector<Feature> all = known.vertical;
    for (const KnownSpan& span : known.spans) {
        bool named = false;
        for (const Feature& feature : known.vertical) {
            named = named || feature.first == span.feature.first;
        }
        if (!named) {
            all.push_back(span.feature);
        }
    }
    return all;
}

}  // namespace

std::optional<Tracked> UprightSolution::height(const TrackedPoint& base, const TrackedPoint& top,
                                               int first) const {
    const auto h = evidence::frame::heightOf(map, base.at(), top.at());
    return h ? std::optional(Five(first).nine(*h, base, top)) : std::nullopt;
}

std::optional<Tracked> UprightSolution::height(const Reader& reader, const Feature& feature,
                                               int first) const {
    const auto [base, top] =
        baseAndTop(map, groundSide, reader.firstPoint(feature), reader.lastPoint(feature));
    return height(base, top, first);
}

Result<UprightSolution> solveUpright(const Inputs& inputs, const Known& known) {
    const std::vector<Feature> verticals = verticalsOf(known);
    if (known.spans.empty()) {
        return refuse(Code::NoSolution, "/references",
                      "an upright frame needs a known height to scale it");
    }
    if (verticals.size() < 2) {
        return refuse(Code::NoSolution, "/vertical",
                      "an upright frame needs two verticals or more, known heights included");
    }
    if (known.ground.size() < 2) {
        return refuse(Code::NoSolution, "/ground",
                      "an upright frame needs two groups of parallel lines on the ground, in two "
                      "directions: one group leaves the horizon open");
    }
    for (const auto& group : known.ground) {
        if (group.size() < 2) {
            return refuse(Code::NoSolution, "/ground",
                          "each group of ground lines needs two parallel lines or more");
        }
    }
    const VectorXd values = Eigen::Map<const VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, known.lens);
    const Extent extent = extentOf(pointsOf(inputs, known));
    UprightSolution solution;
    solution.map.centre = extent.middle;
    solution.map.unit = extent.size;

    const auto v = vanishingPoint(reader, verticals, extent);
    Vector2d mean = Vector2d::Zero();
    for (const Feature& line : verticals) {
        Vector2d d = reader.lastPoint(line).at() - reader.firstPoint(line).at();
        d *= d.dot(mean) < 0 ? -1 : 1;
        mean += d;
    }
    const Vector2d e = mean.normalized();
    const Vector2d across(-e.y(), e.x());
    const double alongE = v->head<2>().dot(e);
    if (!(std::abs(alongE) > 0.05)) {
        return refuse(Code::NoSolution, "/vertical",
                      "the verticals meet inside the picture: it looks straight up or down, and "
                      "shows no heights");
    }
    solution.map.upward = e;

    // Horizon: the line through the groups' vanishing points.
    std::vector<Vector3d> meeting;
    Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
    for (const auto& group : known.ground) {
        meeting.push_back(*vanishingPoint(reader, group, extent));
        sum += meeting.back() * meeting.back().transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(sum);
    const Vector3d horizon = eigen.eigenvectors().col(0);
    const double flat = horizon.head<2>().norm();
    if (!(eigen.eigenvalues()(1) > 1e-6 * eigen.eigenvalues()(2)) || !(flat > 1e-6)) {
        return refuse(Code::NoSolution, "/ground",
                      "the groups of ground lines run in one direction: the horizon stays open");
    }
    const double psi = std::atan2(horizon.y(), horizon.x());
    const double delta = -horizon.z() / flat;
    const Vector2d normal(std::cos(psi), std::sin(psi));
    const Vector2d tangent(-normal.y(), normal.x());

    VectorXd start(kOwn + static_cast<Eigen::Index>(meeting.size()));
    start.head<kOwn>() << psi, delta, v->head<2>().dot(across) / alongE, v->z() / alongE, 1;
    for (std::size_t i = 0; i < meeting.size(); ++i) {
        start(kOwn + static_cast<Eigen::Index>(i)) =
            std::atan2(meeting[i].head<2>().dot(tangent), meeting[i].z());
        // Two of a bearing's directions name one point: the one whose third coordinate is ≥ 0.
    }
    solution.map.parameters = start.head<kOwn>();
    // The ground lies on the lower side of the picture, or where its lines lie if that says
    // nothing.
    solution.groundSide = normal.y() >= 0 ? 1 : -1;
    if (std::abs(normal.y()) < 0.5) {
        double lines = 0;
        for (const auto& group : known.ground) {
            for (const Feature& line : group) {
                lines += sideOf(solution.map, reader.firstPoint(line).at());
            }
        }
        solution.groundSide = lines >= 0 ? 1 : -1;
    }
    double scale = 0;
    for (const KnownSpan& span : known.spans) {
        const auto [base, top] =
            baseAndTop(solution.map, solution.groundSide, reader.firstPoint(span.feature),
                       reader.lastPoint(span.feature));
        const auto h = evidence::frame::heightOf(solution.map, base.at(), top.at());
        if (!h || !(h->value > 0)) {
            return refuse(Code::NoSolution, "/references",
                          "a known height stands on the horizon: its base gives no scale");
        }
        scale += inputs.value(span.length) / h->value / static_cast<double>(known.spans.size());
    }
    start(UprightMap::Scale) = scale;

    const int first = inputs.size();
    const UprightMap base = solution.map;
    const double groundSide = solution.groundSide;
    const Conditions conditions =
        [&](const VectorXd& z, const VectorXd& theta) -> std::optional<std::vector<Tracked>> {
        const UprightMap map = withParameters(base, theta);
        const Reader at(z, known.lens);
        const Five own(first);
        std::vector<Tracked> rows;
        for (const Feature& line : verticals) {
            const TrackedPoint p = at.firstPoint(line);
            const TrackedPoint q = at.lastPoint(line);
            rows.push_back(own.nine(evidence::frame::offVertical(map, p.at(), q.at()), p, q));
        }
        for (std::size_t g = 0; g < known.ground.size(); ++g) {
            const auto slot = kOwn + static_cast<int>(g);
            const Tracked bearing = variable(theta(slot), first + slot);
            for (const Feature& line : known.ground[g]) {
                const TrackedPoint p = at.firstPoint(line);
                const TrackedPoint q = at.lastPoint(line);
                const auto off = evidence::frame::offGround(map, theta(slot), p.at(), q.at());
                rows.push_back(through<10>(
                    off,
                    {&own.parameters[0], &own.parameters[1], &own.parameters[2], &own.parameters[3],
                     &own.parameters[4], &bearing, &p.x, &p.y, &q.x, &q.y}));
            }
        }
        for (const KnownSpan& span : known.spans) {
            const auto [foot, top] = baseAndTop(map, groundSide, at.firstPoint(span.feature),
                                                at.lastPoint(span.feature));
            const auto h = evidence::frame::heightOf(map, foot.at(), top.at());
            if (!h) {
                return std::nullopt;
            }
            rows.push_back(own.nine(*h, foot, top) - at.input(span.length));
        }
        return rows;
    };
    auto adjustment = adjust(inputs, start, conditions);
    if (!adjustment) {
        return refuse(Code::NoSolution, "",
                      "the ground lines and verticals do not determine horizon and vertical: give "
                      "more of them, or such as stand farther apart");
    }
    solution.map = withParameters(base, adjustment->parameters);
    solution.names = {"horizon_turn", "horizon_offset", "vertical_across", "vertical_inverse",
                      "scale"};
    solution.spanRow = static_cast<int>(verticals.size());
    for (std::size_t g = 0; g < known.ground.size(); ++g) {
        solution.spanRow += static_cast<int>(known.ground[g].size());
        solution.names.push_back("bearing_" + std::to_string(g + 1));
    }
    solution.adjustment = *std::move(adjustment);
    const double u = std::sqrt(solution.adjustment.covariance(kOwn - 1, kOwn - 1));
    if (!(u < 0.3 * std::abs(solution.map.parameters(kOwn - 1)))) {
        return refuse(Code::NoSolution, "",
                      "horizon and vertical are too uncertain to scale heights: give ground lines "
                      "that converge more, or verticals farther apart");
    }
    return solution;
}

}  // namespace imaging::frame

#include "imaging/frame/solve_plane.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::frame {
namespace {

using Eigen::Matrix2d;
using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::VectorXd;
using evidence::frame::PlaneMap;
using Parameters = Eigen::Matrix<double, 8, 1>;

constexpr std::array kNames = {"l1", "l2", "a", "b", "c", "d", "tx", "ty"};

Carrier carrierOf(const PlaneMap& map, const std::vector<int>& free, int first) {
    return [map, free, first](const TrackedPoint& pixel) -> std::optional<TrackedPoint> {
        const auto position = evidence::frame::carried(map, pixel.at());
        if (!position) {
            return std::nullopt;
        }
        std::vector<Tracked> parameters;
        for (std::size_t k = 0; k < free.size(); ++k) {
            parameters.push_back(variable(0, first + static_cast<int>(k)));
        }
        const auto coordinate = [&](Eigen::Index row) {
            std::vector<std::pair<double, const Tracked*>> parts = {
                {position->byPixel(row, 0), &pixel.x}, {position->byPixel(row, 1), &pixel.y}};
            for (std::size_t k = 0; k < free.size(); ++k) {
                parts.emplace_back(position->byModel(row, free[k]), &parameters[k]);
            }
            return chained(position->at(row), parts);
        };
        return TrackedPoint{coordinate(0), coordinate(1)};
    };
}

/// All that a plane must satisfy, as conditions on the free parameters.
class PlaneConditions {
  public:
    PlaneConditions(const Inputs& inputs, const Known& known, PlaneMap base, std::vector<int> free,
                    const StretchPriors& priors)
        : m_first(inputs.size()),
          m_known(known),
          m_base(std::move(base)),
          m_free(std::move(free)),
          m_priors(priors) {}

    [[nodiscard]] PlaneMap mapAt(const VectorXd& parameters) const {
        PlaneMap map = m_base;
        for (std::size_t k = 0; k < m_free.size(); ++k) {
            map.parameters(m_free[k]) = parameters(static_cast<Eigen::Index>(k));
        }
        return map;
    }

    [[nodiscard]] VectorXd from(const Parameters& all) const {
        VectorXd x(static_cast<Eigen::Index>(m_free.size()));
        for (std::size_t k = 0; k < m_free.size(); ++k) {
            x(static_cast<Eigen::Index>(k)) = all(m_free[k]);
        }
        return x;
    }

    std::optional<std::vector<Tracked>> operator()(const VectorXd& inputs,
                                                   const VectorXd& parameters) const {
        const Reader reader(inputs, m_known.lens);
        const PlaneMap map = mapAt(parameters);
        const Carrier carry = carrierOf(map, m_free, m_first);
        std::vector<Tracked> rows;
        if (withPoints()) {
            for (const KnownPoint& point : m_known.points) {
                const auto at = carriedPoint(reader, point.feature, carry);
                if (!at) {
                    return std::nullopt;
                }
                rows.push_back(at->x - point.at[0].read(reader));
                rows.push_back(at->y - point.at[1].read(reader));
            }
        }
        for (const KnownSpan& span : m_known.spans) {
            const auto length = carriedLength(reader, span.feature, carry);
            if (!length) {
                return std::nullopt;
            }
            rows.push_back(*length - reader.input(span.length));
        }
        if (!addAngles(reader, carry, rows)) {
            return std::nullopt;
        }
        addPriors(reader, map, rows);
        return rows;
    }

    [[nodiscard]] bool withPoints() const {
        return std::find(m_free.begin(), m_free.end(), PlaneMap::Tx) != m_free.end();
    }

  private:
    bool addAngles(const Reader& reader, const Carrier& carry, std::vector<Tracked>& rows) const {
        const auto pair = [&](const Feature& a, const Feature& b, bool parallel) {
            const auto p = carry(reader.firstPoint(a));
            const auto q = carry(reader.lastPoint(a));
            const auto r = carry(reader.firstPoint(b));
            const auto s = carry(reader.lastPoint(b));
            if (!p || !q || !r || !s) {
                return false;
            }
            rows.push_back(parallel ? sineOfLines(*p, *q, *r, *s) : cosineOfLines(*p, *q, *r, *s));
            return true;
        };
        for (const auto& group : m_known.parallel) {
            for (std::size_t i = 1; i < group.size(); ++i) {
                if (!pair(group[0], group[i], true)) {
                    return false;
                }
            }
        }
        for (const auto& group : m_known.square) {
            for (std::size_t i = 1; i < group.size(); ++i) {
                if (!pair(group[i - 1], group[i], false)) {
                    return false;
                }
            }
        }
        return true;
    }

    void addPriors(const Reader& reader, const PlaneMap& map, std::vector<Tracked>& rows) const {
        const auto parameter = [&](PlaneMap::Parameter which) {
            const auto it = std::find(m_free.begin(), m_free.end(), which);
            const double value = map.parameters(which);
            return it == m_free.end()
                       ? constant(value)
                       : variable(value, m_first + static_cast<int>(it - m_free.begin()));
        };
        const Tracked a = parameter(PlaneMap::A);
        const Tracked b = parameter(PlaneMap::B);
        const Tracked c = parameter(PlaneMap::C);
        const Tracked d = parameter(PlaneMap::D);
        if (m_priors.scaleX) {
            const double sx = std::hypot(a.value, c.value);
            rows.push_back(chained(sx, {{a.value / sx, &a}, {c.value / sx, &c}}) -
                           map.unit * reader.input(*m_priors.scaleX));
        }
        if (m_priors.scaleY) {
            const double sx = std::hypot(a.value, c.value);
            const double area = a.value * d.value - b.value * c.value;
            const double sy = std::abs(area) / sx;
            const double sign = area < 0 ? -1 : 1;
            rows.push_back(chained(sy, {{sign * d.value / sx - sy * a.value / (sx * sx), &a},
                                        {-sign * c.value / sx, &b},
                                        {-sign * b.value / sx - sy * c.value / (sx * sx), &c},
                                        {sign * a.value / sx, &d}}) -
                           map.unit * reader.input(*m_priors.scaleY));
        }
        if (m_priors.shear) {
            const double sx2 = a.value * a.value + c.value * c.value;
            const double dot = a.value * b.value + c.value * d.value;
            const double shear = dot / sx2;
            rows.push_back(chained(shear, {{b.value / sx2 - 2 * shear * a.value / sx2, &a},
                                           {a.value / sx2, &b},
                                           {d.value / sx2 - 2 * shear * c.value / sx2, &c},
                                           {c.value / sx2, &d}}) -
                           reader.input(*m_priors.shear));
        }
    }

    int m_first;
    const Known& m_known;
    PlaneMap m_base;
    std::vector<int> m_free;
    StretchPriors m_priors;
};

/// What starts are made of: everything as plain numbers in the map's own pixel units.
struct PlainScene {
    struct Span {
        Vector2d p, q;
        double length;
    };
    struct Pair {
        Vector2d a1, a2, b1, b2;
    };
    std::vector<Vector2d> pixels;
    std::vector<Vector2d> places;
    std::vector<Span> spans;
    std::vector<Pair> square;
    std::vector<Vector3d> vanishing;
    std::vector<Vector2d> all;
};

PlainScene plain(const Inputs& inputs, const Known& known, const Extent& extent) {
    const VectorXd values = Eigen::Map<const VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, known.lens);
    const auto unitless = [&extent](const TrackedPoint& p) {
        return Vector2d((p.at() - extent.middle) / extent.size);
    };
    PlainScene scene;
    for (const KnownPoint& point : known.points) {
        scene.pixels.push_back(unitless(reader.point(point.feature, 0)));
        scene.places.emplace_back(point.at[0].value, point.at[1].value);
    }
    for (const KnownSpan& span : known.spans) {
        if (span.feature.isRound()) {
            // The rim's points farthest apart stand for the diameter, well enough for a start.
            const auto rim = reader.rim(span.feature);
            Vector2d p = unitless(rim[0]);
            Vector2d q = p;
            for (const auto& one : rim) {
                for (const auto& two : rim) {
                    if ((unitless(one) - unitless(two)).norm() > (p - q).norm()) {
                        p = unitless(one);
                        q = unitless(two);
                    }
                }
            }
            scene.spans.push_back({p, q, inputs.value(span.length)});
        } else {
            scene.spans.push_back({unitless(reader.firstPoint(span.feature)),
                                   unitless(reader.lastPoint(span.feature)),
                                   inputs.value(span.length)});
        }
    }
    for (std::size_t i = 0; i < known.points.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const double length = (scene.places[i] - scene.places[j]).norm();
            if (length > 0) {
                scene.spans.push_back({scene.pixels[i], scene.pixels[j], length});
            }
        }
    }
    for (const auto& group : known.square) {
        for (std::size_t i = 1; i < group.size(); ++i) {
            scene.square.push_back({unitless(reader.firstPoint(group[i - 1])),
                                    unitless(reader.lastPoint(group[i - 1])),
                                    unitless(reader.firstPoint(group[i])),
                                    unitless(reader.lastPoint(group[i]))});
        }
    }
    for (const auto& group : known.parallel) {
        if (const auto v = vanishingPoint(reader, group, extent)) {
            scene.vanishing.push_back(*v);
        }
    }
    for (const Vector2d& p : pointsOf(inputs, known)) {
        scene.all.emplace_back((p - extent.middle) / extent.size);
    }
    return scene;
}

/// Vanishing lines worth trying, as (l₁, l₂) with w = 1 + l·n above zero at all marks.
std::vector<Vector2d> vanishingLines(const PlainScene& scene, PlaneKind kind) {
    std::vector<Vector2d> lines;
    const auto offer = [&](const Vector2d& l) {
        for (const Vector2d& p : scene.all) {
            if (!(1 + l.dot(p) > 0.05)) {
                return;
            }
        }
        lines.push_back(l);
    };
    if (kind == PlaneKind::Stretched) {
        return {Vector2d::Zero()};
    }
    for (std::size_t i = 0; i < scene.vanishing.size(); ++i) {
        const Vector3d& v = scene.vanishing[i];
        for (std::size_t j = 0; j < i; ++j) {
            const Vector3d l = v.cross(scene.vanishing[j]);
            if (std::abs(l.z()) > 1e-9) {
                offer(l.head<2>() / l.z());
            }
        }
        // Least slant through this one: l·v = 0 with third coordinate 1.
        const double flat = v.head<2>().squaredNorm();
        if (flat > 1e-12) {
            offer(-v.z() * v.head<2>() / flat);
        }
    }
    offer(Vector2d::Zero());
    for (const double size : {0.25, 0.5}) {
        for (int k = 0; k < 8; ++k) {
            const double turn = k * std::numbers::pi / 4;
            offer(size * Vector2d(std::cos(turn), std::sin(turn)));
        }
    }
    return lines;
}

/// S = AᵀA from dᵀSd = L² and d₁ᵀSd₂ = 0 (linear in S), as the upper triangular A.
std::optional<Matrix2d> metric(const PlainScene& scene, const Vector2d& l) {
    const auto straight = [&l](const Vector2d& n) { return Vector2d(n / (1 + l.dot(n))); };
    std::vector<Eigen::RowVector3d> rows;
    std::vector<double> right;
    double flatLength = 0;
    double knownLength = 0;
    for (const auto& span : scene.spans) {
        const Vector2d d = straight(span.q) - straight(span.p);
        const double weight = 1 / (span.length * span.length);
        rows.push_back(weight *
                       Eigen::RowVector3d(d.x() * d.x(), 2 * d.x() * d.y(), d.y() * d.y()));
        right.push_back(1);
        flatLength += d.norm();
        knownLength += span.length;
    }
    if (!(flatLength > 0 && knownLength > 0)) {
        return std::nullopt;
    }
    const double scale = knownLength / flatLength;
    for (const auto& pair : scene.square) {
        const Vector2d d = (straight(pair.a2) - straight(pair.a1)).normalized();
        const Vector2d e = (straight(pair.b2) - straight(pair.b1)).normalized();
        rows.push_back(
            Eigen::RowVector3d(d.x() * e.x(), d.x() * e.y() + d.y() * e.x(), d.y() * e.y()) /
            (scale * scale));
        right.push_back(0);
    }
    // Drawn gently towards equal scales, for what the rows leave open.
    constexpr double kGentle = 1e-3;
    rows.push_back(kGentle * Eigen::RowVector3d(1, 0, -1) / (scale * scale));
    right.push_back(0);
    rows.push_back(kGentle * Eigen::RowVector3d(0, 1, 0) / (scale * scale));
    right.push_back(0);
    Eigen::MatrixX3d a(static_cast<Eigen::Index>(rows.size()), 3);
    VectorXd b(a.rows());
    for (Eigen::Index i = 0; i < a.rows(); ++i) {
        a.row(i) = rows[static_cast<std::size_t>(i)];
        b(i) = right[static_cast<std::size_t>(i)];
    }
    const Vector3d s = a.colPivHouseholderQr().solve(b);
    Matrix2d symmetric;
    symmetric << s(0), s(1), s(1), s(2);
    const Eigen::LLT<Matrix2d> llt(symmetric);
    if (llt.info() == Eigen::Success && symmetric.allFinite() &&
        symmetric.determinant() > 1e-4 * std::pow(symmetric.trace(), 2)) {
        return Matrix2d(llt.matrixU());
    }
    return Matrix2d(Matrix2d::Identity() * scale);
}

/// Turn (or turn and mirror) and shift that bring `from` onto `to` best.
struct Placement {
    Matrix2d turn = Matrix2d::Identity();
    Vector2d shift = Vector2d::Zero();
};

Placement placement(const std::vector<Vector2d>& from, const std::vector<Vector2d>& to,
                    double handedness) {
    const auto n = static_cast<double>(from.size());
    Vector2d a = Vector2d::Zero();
    Vector2d b = Vector2d::Zero();
    for (std::size_t i = 0; i < from.size(); ++i) {
        a += from[i] / n;
        b += to[i] / n;
    }
    Matrix2d cross = Matrix2d::Zero();
    for (std::size_t i = 0; i < from.size(); ++i) {
        cross += (to[i] - b) * (from[i] - a).transpose();
    }
    const Eigen::JacobiSVD<Matrix2d> svd(cross, Eigen::ComputeFullU | Eigen::ComputeFullV);
    Matrix2d sign = Matrix2d::Identity();
    const double turn = (svd.matrixU() * svd.matrixV().transpose()).determinant();
    sign(1, 1) = turn * handedness;
    Placement result;
    result.turn = svd.matrixU() * sign * svd.matrixV().transpose();
    result.shift = b - result.turn * a;
    return result;
}

/// Normalised direct linear transform: parameters from four points and more; none where three of
/// four lie on a line, or the picture turns inside out.
std::optional<Parameters> fromPoints(const PlainScene& scene, PlaneKind kind) {
    const std::size_t n = scene.pixels.size();
    const Extent world = extentOf(scene.places);
    const Eigen::Index rows = static_cast<Eigen::Index>(2 * n);
    Parameters p;
    if (kind == PlaneKind::Stretched) {
        if (n < 3) {
            return std::nullopt;
        }
        Eigen::MatrixX3d a(static_cast<Eigen::Index>(n), 3);
        Eigen::MatrixX2d b(a.rows(), 2);
        for (Eigen::Index i = 0; i < a.rows(); ++i) {
            const auto k = static_cast<std::size_t>(i);
            a.row(i) << scene.pixels[k].x(), scene.pixels[k].y(), 1;
            b.row(i) = scene.places[k].transpose();
        }
        const Eigen::ColPivHouseholderQR<Eigen::MatrixX3d> qr(a);
        if (qr.matrixR().diagonal().cwiseAbs().minCoeff() < 1e-3) {
            return std::nullopt;
        }
        const Eigen::Matrix<double, 3, 2> x = qr.solve(b);
        p << 0, 0, x(0, 0), x(1, 0), x(0, 1), x(1, 1), x(2, 0), x(2, 1);
        return p;
    }
    if (n < 4) {
        return std::nullopt;
    }
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(rows, 9);
    for (std::size_t i = 0; i < n; ++i) {
        const Vector2d x = scene.pixels[i];
        const Vector2d y = (scene.places[i] - world.middle) / world.size;
        const auto at = static_cast<Eigen::Index>(2 * i);
        a.row(at) << x.x(), x.y(), 1, 0, 0, 0, -y.x() * x.x(), -y.x() * x.y(), -y.x();
        a.row(at + 1) << 0, 0, 0, x.x(), x.y(), 1, -y.y() * x.x(), -y.y() * x.y(), -y.y();
    }
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(a, Eigen::ComputeFullV);
    const VectorXd& sizes = svd.singularValues();
    if (!(sizes(7) > 1e-6 * sizes(0))) {
        return std::nullopt;
    }
    const VectorXd h = svd.matrixV().col(8);
    if (std::abs(h(8)) < 1e-9) {
        return std::nullopt;
    }
    Eigen::Matrix3d m;
    m << h(0), h(1), h(2), h(3), h(4), h(5), h(6), h(7), h(8);
    m /= h(8);
    m.topRows<2>() = world.size * m.topRows<2>() + world.middle * m.row(2);
    const Vector2d l = m.row(2).head<2>().transpose();
    for (const Vector2d& x : scene.pixels) {
        if (!(1 + l.dot(x) > 0.01)) {
            return std::nullopt;
        }
    }
    const Vector2d t = m.topRightCorner<2, 1>();
    const Matrix2d linear = m.topLeftCorner<2, 2>() - t * l.transpose();
    p << l, linear(0, 0), linear(0, 1), linear(1, 0), linear(1, 1), t;
    return p;
}

std::vector<Parameters> startsOf(const PlainScene& scene, PlaneKind kind, bool withPoints) {
    std::vector<Parameters> starts;
    if (withPoints) {
        if (const auto p = fromPoints(scene, kind)) {
            starts.push_back(*p);
            return starts;
        }
    }
    for (const Vector2d& l : vanishingLines(scene, kind)) {
        const auto a = metric(scene, l);
        if (!a) {
            continue;
        }
        Parameters p;
        if (!withPoints) {
            p << l, (*a)(0, 0), (*a)(0, 1), 0, (*a)(1, 1), 0, 0;
            starts.push_back(p);
            continue;
        }
        std::vector<Vector2d> flat;
        for (const Vector2d& n : scene.pixels) {
            flat.emplace_back(*a * n / (1 + l.dot(n)));
        }
        for (const double handedness : {1.0, -1.0}) {
            const Placement place = placement(flat, scene.places, handedness);
            const Matrix2d turned = place.turn * *a;
            p << l, turned(0, 0), turned(0, 1), turned(1, 0), turned(1, 1), place.shift;
            starts.push_back(p);
        }
    }
    return starts;
}

std::string whyNot(const Known& known, PlaneKind kind) {
    if (kind == PlaneKind::Stretched) {
        return "a stretch frame needs known lengths in two directions or more (at least 1 degree "
               "apart), three known points, or the print's resolution and scale";
    }
    if (known.points.size() >= 4) {
        return "three of the known points lie on one line, or two coincide: give four that span "
               "the plane, no three of them on a line";
    }
    return "the known lengths, right angles and parallels leave the slant or the scale open: give "
           "four known points, or a length with two pairs of parallels and a right angle that is "
           "not theirs alone, or more lengths in other directions";
}

/// The doubt of the scale across the marks, as a share: beyond this nothing is determined.
constexpr double kMostDoubt = 0.3;

bool determined(const PlaneSolution& solution, const Inputs& inputs, const PlainScene& scene) {
    const Carrier carry = solution.carrier(inputs.size());
    double u = 0;
    double size = 0;
    for (std::size_t i = 0; i < scene.all.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const auto pixel = [&](std::size_t k) {
                const Vector2d p = solution.map.centre + solution.map.unit * scene.all[k];
                return carry({constant(p.x()), constant(p.y())});
            };
            const auto p = pixel(i);
            const auto q = pixel(j);
            if (!p || !q) {
                return false;
            }
            const Tracked length = distance(*p, *q);
            if (length.value > size) {
                size = length.value;
                u = inputs.spreadOf(onInputs(length, inputs, solution.adjustment)).u();
            }
        }
    }
    return size > 0 && u < kMostDoubt * size;
}

}  // namespace

Carrier PlaneSolution::carrier(int first) const {
    return carrierOf(map, free, first);
}

Result<PlaneSolution> solvePlane(const Inputs& inputs, const Known& known, PlaneKind kind,
                                 const StretchPriors& priors) {
    const Extent extent = extentOf(pointsOf(inputs, known));
    PlaneSolution solution;
    solution.map.centre = extent.middle;
    solution.map.unit = extent.size;
    const bool withPoints = known.points.size() >= 2;
    const int from = kind == PlaneKind::Stretched ? PlaneMap::A : PlaneMap::L1;
    for (int k = from; k < PlaneMap::kParameters; ++k) {
        const bool placing = k == PlaneMap::C || k >= PlaneMap::Tx;
        if (withPoints || !placing) {
            solution.free.push_back(k);
            solution.names.emplace_back(kNames[static_cast<std::size_t>(k)]);
        }
    }
    if (known.points.size() == 1) {
        solution.notes.emplace_back("one known point alone says nothing of lengths: not used");
    }
    const PlaneConditions conditions(inputs, known, solution.map, solution.free, priors);
    const PlainScene scene = plain(inputs, known, extent);
    std::vector<Parameters> starts = startsOf(scene, kind, withPoints);
    if (priors.scaleX && !withPoints) {
        Parameters p;
        const double sx = inputs.value(*priors.scaleX) * extent.size;
        const double sy = inputs.value(*priors.scaleY) * extent.size;
        p << 0, 0, sx, 0, 0, sy, 0, 0;
        starts.push_back(p);
    }
    std::optional<Adjustment> best;
    for (const Parameters& start : starts) {
        auto tried = adjust(inputs, conditions.from(start), conditions);
        if (tried && (!best || tried->chi2 < best->chi2 - 1e-9 * (1 + best->chi2))) {
            best = *std::move(tried);
            // As good as noise alone allows: no other start can be meaningfully better.
            if (best->redundancy > 0 && best->chi2 < best->redundancy + 3) {
                break;
            }
        }
    }
    if (!best) {
        return refuse(Code::NoSolution, "", whyNot(known, kind));
    }
    solution.pointRow = withPoints ? 0 : -1;
    solution.rowsOfPoint = 2;
    solution.spanRow = withPoints ? static_cast<int>(2 * known.points.size()) : 0;
    solution.map = conditions.mapAt(best->parameters);
    solution.adjustment = *std::move(best);
    // A sheet scaled by its print alone has no marks to be in doubt.
    if (scene.all.size() > 1 && !determined(solution, inputs, scene)) {
        return refuse(Code::NoSolution, "", whyNot(known, kind));
    }
    return solution;
}

}  // namespace imaging::frame

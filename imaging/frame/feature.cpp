#include "imaging/frame/feature.h"

#include "evidence-core/frame/circle.h"
#include "evidence-core/frame/pixel_geometry.h"

#include <cmath>
#include <numbers>

namespace imaging::frame {
namespace {

constexpr int kRimSamples = 36;

Eigen::VectorXd numbersOf(const mark::FittedMark& mark, Feature::Numbers numbers) {
    switch (numbers) {
        case Feature::Numbers::Circle:
            return Eigen::Vector3d(mark.circle->centre.x(), mark.circle->centre.y(),
                                   mark.circle->radius);
        case Feature::Numbers::Ellipse: {
            Eigen::VectorXd five(5);
            five << mark.ellipse->centre, mark.ellipse->a, mark.ellipse->b, mark.ellipse->angle;
            return five;
        }
        case Feature::Numbers::Points:
            break;
    }
    Eigen::VectorXd all(static_cast<Eigen::Index>(2 * mark.points.size()));
    for (std::size_t i = 0; i < mark.points.size(); ++i) {
        all.segment<2>(static_cast<Eigen::Index>(2 * i)) = mark.points[i];
    }
    return all;
}

Eigen::MatrixXd covarianceOf(const mark::FittedMark& mark, Feature::Numbers numbers, double extra) {
    const double square = extra * extra;
    switch (numbers) {
        case Feature::Numbers::Circle: {
            Eigen::MatrixXd c = mark.circle->covariance;
            c.diagonal().array() += square;
            return c;
        }
        case Feature::Numbers::Ellipse: {
            Eigen::MatrixXd c = mark.ellipse->covariance;
            c.diagonal().head<4>().array() += square;
            return c;
        }
        case Feature::Numbers::Points:
            break;
    }
    Eigen::MatrixXd c = mark.covariance;
    c.diagonal().array() += square;
    return c;
}

template <int N, class F>
Tracked ofPoints(const F& function, const std::array<const TrackedPoint*, N / 2>& points) {
    std::array<const Tracked*, N> arguments{};
    for (std::size_t i = 0; i < points.size(); ++i) {
        arguments[2 * i] = &points[i]->x;
        arguments[2 * i + 1] = &points[i]->y;
    }
    return through<N>(function, arguments);
}

}  // namespace

Feature addMark(Inputs& inputs, const mark::FittedMark& mark, double extra) {
    Feature feature;
    feature.kind = mark.kind;
    if (mark.ellipse && mark.made != mark::Fit::None) {
        feature.numbers = Feature::Numbers::Ellipse;
    } else if (mark.circle && mark.made != mark::Fit::None) {
        feature.numbers = Feature::Numbers::Circle;
    }
    feature.points = static_cast<int>(mark.points.size());
    if (!mark.pointCovariances.empty()) {
        // A traced curve: its stations are independent.
        feature.first = inputs.size();
        for (std::size_t i = 0; i < mark.points.size(); ++i) {
            inputs.addBlock(mark.points[i],
                            mark.pointCovariances[i] + extra * extra * Eigen::Matrix2d::Identity());
        }
        return feature;
    }
    feature.first = inputs.addBlock(numbersOf(mark, feature.numbers),
                                    covarianceOf(mark, feature.numbers, extra));
    return feature;
}

TrackedPoint Reader::straight(const TrackedPoint& p) const {
    if (!m_lens) {
        return p;
    }
    evidence::frame::Lens lens;
    lens.unit = m_lens->unit;
    lens.parameters = m_values.segment<4>(m_lens->first);
    const auto s = evidence::frame::straightened(lens, p.at());
    std::array<Tracked, 4> by;
    for (int i = 0; i < 4; ++i) {
        by[static_cast<std::size_t>(i)] = input(m_lens->first + i);
    }
    const auto coordinate = [&](Eigen::Index row) {
        return chained(s.at(row), {{s.byPixel(row, 0), &p.x},
                                   {s.byPixel(row, 1), &p.y},
                                   {s.byLens(row, 0), &by[0]},
                                   {s.byLens(row, 1), &by[1]},
                                   {s.byLens(row, 2), &by[2]},
                                   {s.byLens(row, 3), &by[3]}});
    };
    return {coordinate(0), coordinate(1)};
}

TrackedPoint Reader::onEllipse(const Feature& feature, double turn) const {
    const int at = feature.first;
    const Tracked cx = input(at);
    const Tracked cy = input(at + 1);
    const Tracked a = input(at + 2);
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    if (feature.numbers == Feature::Numbers::Circle) {
        return {cx + c * a, cy + s * a};
    }
    const Tracked b = input(at + 3);
    const Tracked angle = input(at + 4);
    const double ca = std::cos(angle.value);
    const double sa = std::sin(angle.value);
    const double dx = a.value * c;
    const double dy = b.value * s;
    return {chained(cx.value + dx * ca - dy * sa,
                    {{1, &cx}, {c * ca, &a}, {-s * sa, &b}, {-dx * sa - dy * ca, &angle}}),
            chained(cy.value + dx * sa + dy * ca,
                    {{1, &cy}, {c * sa, &a}, {s * ca, &b}, {dx * ca - dy * sa, &angle}})};
}

TrackedPoint Reader::point(const Feature& feature, int i) const {
    if (feature.numbers != Feature::Numbers::Points) {
        return straight({input(feature.first), input(feature.first + 1)});
    }
    if (feature.isRound()) {
        const auto circle = circleOf(rim(feature));
        if (circle) {
            return circle->centre;
        }
    }
    const int at = feature.first + 2 * i;
    return straight({input(at), input(at + 1)});
}

std::vector<TrackedPoint> Reader::rim(const Feature& feature) const {
    if (feature.numbers == Feature::Numbers::Points) {
        return all(feature);
    }
    std::vector<TrackedPoint> rim;
    for (int i = 0; i < kRimSamples; ++i) {
        rim.push_back(straight(onEllipse(feature, 2 * std::numbers::pi * i / kRimSamples)));
    }
    return rim;
}

std::vector<TrackedPoint> Reader::all(const Feature& feature) const {
    std::vector<TrackedPoint> points;
    for (int i = 0; i < feature.points; ++i) {
        const int at = feature.first + 2 * i;
        points.push_back(straight({input(at), input(at + 1)}));
    }
    return points;
}

Reader::Axes Reader::axes(const Feature& feature) const {
    return {straight({input(feature.first), input(feature.first + 1)}),
            straight(onEllipse(feature, 0)), straight(onEllipse(feature, std::numbers::pi / 2))};
}

Tracked distance(const TrackedPoint& p, const TrackedPoint& q) {
    return ofPoints<4>(evidence::frame::pointToPoint(p.at(), q.at()), {&p, &q});
}

Tracked distanceToLine(const TrackedPoint& p, const TrackedPoint& a, const TrackedPoint& b) {
    return ofPoints<6>(evidence::frame::pointToLine(p.at(), a.at(), b.at()), {&p, &a, &b});
}

Tracked distanceOfLines(const TrackedPoint& a, const TrackedPoint& b, const TrackedPoint& c,
                        const TrackedPoint& d) {
    return ofPoints<8>(evidence::frame::lineToLine(a.at(), b.at(), c.at(), d.at()),
                       {&a, &b, &c, &d});
}

Tracked angleOfLines(const TrackedPoint& a, const TrackedPoint& b, const TrackedPoint& c,
                     const TrackedPoint& d) {
    return ofPoints<8>(evidence::frame::angleBetween(a.at(), b.at(), c.at(), d.at()),
                       {&a, &b, &c, &d});
}

Tracked sineOfLines(const TrackedPoint& a, const TrackedPoint& b, const TrackedPoint& c,
                    const TrackedPoint& d) {
    return ofPoints<8>(evidence::frame::sineBetween(a.at(), b.at(), c.at(), d.at()),
                       {&a, &b, &c, &d});
}

Tracked cosineOfLines(const TrackedPoint& a, const TrackedPoint& b, const TrackedPoint& c,
                      const TrackedPoint& d) {
    return ofPoints<8>(evidence::frame::cosineBetween(a.at(), b.at(), c.at(), d.at()),
                       {&a, &b, &c, &d});
}

std::optional<TrackedCircle> circleOf(const std::vector<TrackedPoint>& rim) {
    std::vector<evidence::frame::Point> points;
    points.reserve(rim.size());
    for (const TrackedPoint& p : rim) {
        points.emplace_back(p.at());
    }
    const auto circle = evidence::frame::circleThrough(points);
    if (!circle) {
        return std::nullopt;
    }
    const auto number = [&](double value, Eigen::Index row) {
        std::vector<std::pair<double, const Tracked*>> parts;
        for (std::size_t i = 0; i < rim.size(); ++i) {
            const auto at = static_cast<Eigen::Index>(2 * i);
            parts.emplace_back(circle->jacobian(row, at), &rim[i].x);
            parts.emplace_back(circle->jacobian(row, at + 1), &rim[i].y);
        }
        return chained(value, parts);
    };
    return TrackedCircle{{number(circle->centre.x(), 0), number(circle->centre.y(), 1)},
                         number(circle->radius, 2)};
}

std::optional<TrackedCircle> carriedCircle(const Reader& reader, const Feature& feature,
                                           const Carrier& carry) {
    std::vector<TrackedPoint> carried;
    for (const TrackedPoint& p : reader.rim(feature)) {
        auto q = carry(p);
        if (!q) {
            return std::nullopt;
        }
        carried.push_back(*std::move(q));
    }
    return circleOf(carried);
}

std::optional<TrackedPoint> carriedPoint(const Reader& reader, const Feature& feature,
                                         const Carrier& carry) {
    if (feature.isRound()) {
        auto circle = carriedCircle(reader, feature, carry);
        return circle ? std::optional(std::move(circle->centre)) : std::nullopt;
    }
    return carry(reader.firstPoint(feature));
}

std::optional<Tracked> carriedLength(const Reader& reader, const Feature& feature,
                                     const Carrier& carry) {
    if (feature.isRound()) {
        const auto circle = carriedCircle(reader, feature, carry);
        return circle ? std::optional(2.0 * circle->radius) : std::nullopt;
    }
    const auto p = carry(reader.firstPoint(feature));
    const auto q = carry(reader.lastPoint(feature));
    return p && q ? std::optional(distance(*p, *q)) : std::nullopt;
}

}  // namespace imaging::frame

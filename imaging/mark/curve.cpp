#include "imaging/mark/curve.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace imaging::mark {
namespace {

constexpr double kHalfBand = 3;
constexpr double kMargin = 7;
constexpr int kMostMissing = 3;
constexpr std::size_t kMostStations = 20000;

struct Station {
    PixelPoint at = PixelPoint::Zero();
    PixelPoint normal = PixelPoint::Zero();
    double variance = 0;
    double blur = 0;
    double width = 0;
    long pixels = 0;
    double size = 0;  ///< of the offset from where it was foreseen
};

class Tracer {
  public:
    Tracer(const raster::GreyImage& image, const MarkRequest& request)
        : m_image(image), m_request(request) {
        m_search.profile = request.fit == Fit::LineCentre ? Profile::DrawnLine : Profile::Edge;
        m_search.leastNoise = image.roundingNoise();
    }

    Result<std::vector<Station>> trace() {
        const auto& way = m_request.points;
        auto first = find(way[0], (way[1] - way[0]).normalized(), m_request.searchPx);
        if (!first) {
            return lost(way[0], 0);
        }
        m_stations.push_back(*first);
        PixelPoint heading = (way[1] - first->at).normalized();
        for (std::size_t leg = 1; leg < way.size(); ++leg) {
            if (auto wrong = follow(way[leg], leg, heading)) {
                return tl::unexpected(*std::move(wrong));
            }
        }
        return std::move(m_stations);
    }

  private:
    [[nodiscard]] tl::unexpected<Refusal> lost(const PixelPoint& at, std::size_t point) const {
        const int x = static_cast<int>(std::lround(at.x()));
        const int y = static_cast<int>(std::lround(at.y()));
        if (!m_image.readable(x, y)) {
            return refuse(Code::OutsideSheet, fmt::format("/points/{}", point),
                          "the curve runs out of the sheet or into a part that could not be "
                          "decoded");
        }
        return refuse(
            Code::NoFit, fmt::format("/points/{}", point),
            fmt::format("the {} is lost near ({:.0f}, {:.0f}): set way points closer "
                        "together there, or use fit none",
                        m_search.profile == Profile::Edge ? "edge" : "drawn line", at.x(), at.y()));
    }

    std::optional<Station> find(const PixelPoint& at, const PixelPoint& heading, double reach) {
        const PixelPoint normal(-heading.y(), heading.x());
        m_search.reach = reach;
        const Band band = bandOf(m_image, at, normal, reach + kMargin, kHalfBand);
        if (band.unreadable * 4 > static_cast<long>(band.samples.size())) {
            return std::nullopt;
        }
        const auto fit = fitProfile(band.samples, m_search);
        if (!fit) {
            return std::nullopt;
        }
        Station station;
        station.at = at + normal * fit->offset;
        station.normal = normal;
        station.variance = fit->variance * correlationFactor(fit->lags, normal, fit->blur);
        station.blur = fit->blur;
        station.width = fit->width;
        station.pixels = fit->pixels;
        station.size = std::abs(fit->offset);
        return station;
    }

    /// Heading and turn (rad per px) of the last stations.
    [[nodiscard]] PixelPoint foreseen(const PixelPoint& heading, double step,
                                      PixelPoint& nextHeading) const {
        const PixelPoint from = m_stations.back().at;
        nextHeading = heading;
        const std::size_t n = m_stations.size();
        if (n >= 5) {
            const PixelPoint near = from - m_stations[n - 3].at;
            const PixelPoint far = m_stations[n - 3].at - m_stations[n - 5].at;
            const double turn = std::atan2(far.x() * near.y() - far.y() * near.x(), far.dot(near));
            const double run = 0.5 * (near.norm() + far.norm());
            // From the middle of the last chord to the middle of the coming step.
            const double ahead = std::clamp(turn / run, -0.08, 0.08) * (0.5 * run + 0.5 * step);
            const double bearing = std::atan2(near.y(), near.x()) + ahead;
            nextHeading = {std::cos(bearing), std::sin(bearing)};
        } else if (n >= 2) {
            nextHeading = (from - m_stations[n - 2].at).normalized();
        }
        return from + step * nextHeading;
    }

    std::optional<Refusal> follow(const PixelPoint& goal, std::size_t leg, PixelPoint& heading) {
        int missing = 0;
        PixelPoint from = m_stations.back().at;
        double best = (goal - from).norm();
        double walked = 0;
        const double most = 3 * best + 20 * kCurveStation;
        for (;;) {
            const double left = (goal - from).norm();
            if (left <= kCurveStation * 1.5) {
                return arrive(goal, leg, heading);
            }
            PixelPoint next;
            PixelPoint at = foreseen(heading, kCurveStation, next);
            if (missing > 0) {
                at = from + kCurveStation * heading;
                next = heading;
            } else if (m_stations.size() < 4) {
                next = (goal - from).normalized();
                at = from + kCurveStation * next;
            }
            const double reach = m_stations.size() < 4
                                     ? m_request.searchPx
                                     : std::min(m_request.searchPx, 2.5 + 1.5 * missing);
            auto station = find(at, next, reach);
            walked += kCurveStation;
            if (station && station->size <= reach) {
                missing = 0;
                heading = (station->at - m_stations.back().at).normalized();
                from = station->at;
                m_stations.push_back(*station);
            } else {
                if (++missing > kMostMissing) {
                    return lost(at, leg).value();
                }
                from = at;
                heading = next;
            }
            best = std::min(best, left);
            if (walked > most || m_stations.size() > kMostStations) {
                return lost(from, leg).value();
            }
        }
    }

    /// The foot of a way point; the last station may stand closer than the others.
    std::optional<Refusal> arrive(const PixelPoint& goal, std::size_t leg, PixelPoint& heading) {
        const PixelPoint from = m_stations.back().at;
        PixelPoint next;
        static_cast<void>(foreseen(heading, (goal - from).norm(), next));
        const double ahead = (goal - from).dot(next);
        const bool last = leg + 1 == m_request.points.size();
        auto foot = find(goal, next, m_request.searchPx);
        if (!foot) {
            return lost(goal, leg).value();
        }
        if (ahead < 0.5 * kCurveStation && m_stations.size() > 2) {
            // Too close to the station before: the foot stands for both.
            m_stations.pop_back();
        }
        if (last || ahead >= 0.5 * kCurveStation) {
            m_stations.push_back(*foot);
            if (m_stations.size() > 1) {
                heading = (foot->at - m_stations[m_stations.size() - 2].at).normalized();
            }
        } else {
            m_stations.push_back(*foot);
        }
        return std::nullopt;
    }

    const raster::GreyImage& m_image;
    const MarkRequest& m_request;
    ProfileSearch m_search;
    std::vector<Station> m_stations;
};

/// Curvature (1/px, signed towards `normal`) of the course through three stations.
double bendAt(const PixelPoint& a, const PixelPoint& b, const PixelPoint& c,
              const PixelPoint& normal) {
    const PixelPoint p = b - a;
    const PixelPoint q = c - b;
    const double turn = std::atan2(p.x() * q.y() - p.y() * q.x(), p.dot(q));
    const double run = 0.5 * (p.norm() + q.norm());
    const PixelPoint left(-p.y(), p.x());
    return run > 0 ? turn / run * (left.dot(normal) < 0 ? -1 : 1) : 0;
}

}  // namespace

Result<FittedMark> traceCurve(const raster::GreyImage& image, const MarkRequest& request) {
    for (std::size_t i = 1; i < request.points.size(); ++i) {
        if ((request.points[i] - request.points[i - 1]).norm() < 2 * kCurveStation) {
            return refuse(
                Code::BadValue, fmt::format("/points/{}", i),
                fmt::format("way points must stand at least {} px apart", 2 * kCurveStation));
        }
    }
    auto stations = Tracer(image, request).trace();
    if (!stations) {
        return tl::unexpected(stations.error());
    }
    FittedMark mark;
    mark.kind = request.kind;
    mark.made = request.fit;
    const std::size_t n = stations->size();
    const double placing = request.uPx.value_or(kPlacedU);
    const double bias = request.fit == Fit::Edge ? request.edgeBiasPx : 0;
    double squares = 0;
    double counted = 0;
    double width = 0;
    for (std::size_t i = 0; i < n; ++i) {
        Station& s = (*stations)[i];
        if (i >= 2 && i + 2 < n) {
            // A blurred curved edge appears nearer to its centre of curvature by s²κ/2, and a band
            // of half-length h along a curve is off by h²κ/6: mean of the sagitta over the band.
            const double bend =
                bendAt((*stations)[i - 2].at, s.at, (*stations)[i + 2].at, s.normal);
            const double blurred = 0.5 * s.blur * s.blur * bend;
            const PixelPoint shift = s.normal * (-blurred - kHalfBand * kHalfBand / 6 * bend);
            mark.points.emplace_back(s.at + shift);
            // Scatter: second differences of neighbours, six variances and a bend that is small.
            const PixelPoint second = (*stations)[i - 1].at - 2 * s.at + (*stations)[i + 1].at;
            const double off = second.dot(s.normal) - bend * kCurveStation * kCurveStation;
            squares += off * off / (6 * s.variance);
            counted += 1;
        } else {
            mark.points.push_back(s.at);
        }
        const PixelPoint along(s.normal.y(), -s.normal.x());
        Eigen::Matrix2d covariance = (s.variance + bias * bias) * s.normal * s.normal.transpose();
        if (i == 0 || i + 1 == n) {
            covariance += placing * placing * along * along.transpose();
        }
        mark.pointCovariances.push_back(covariance);
        mark.used += s.pixels;
        width += s.width / static_cast<double>(n);
    }
    if (counted > 4) {
        const double ratio = squares / counted;
        if (ratio > 1 + std::sqrt(4 / counted)) {
            for (auto& covariance : mark.pointCovariances) {
                covariance *= ratio;
            }
        }
        double mean = 0;
        for (const Station& s : *stations) {
            mean += s.variance / static_cast<double>(n);
        }
        mark.rmsPx = std::sqrt(mean * std::max(1.0, ratio));
    }
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = width;
    }
    return mark;
}

}  // namespace imaging::mark

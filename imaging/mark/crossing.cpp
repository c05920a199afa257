#include "imaging/mark/crossing.h"

#include "imaging/mark/straight.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::mark {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kSameLine = 20 * kPi / 180;  ///< two arms this near to opposite are one line
constexpr double kLeastAngle = 15 * kPi / 180;

/// Grey along a ring about the point, linearly interpolated: for finding arms only, not for
/// fitting.
struct Ring {
    double radius = 0;
    std::vector<double> grey;
    [[nodiscard]] double angle(double index) const {
        return 2 * kPi * index / static_cast<double>(grey.size());
    }
};

std::optional<Ring> ringOf(const raster::GreyImage& image, const PixelPoint& at, double radius) {
    Ring ring;
    ring.radius = radius;
    const int count = std::max(48, static_cast<int>(std::lround(2 * kPi * radius * 2)));
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * kPi * i / count;
        const double x = at.x() + radius * std::cos(angle);
        const double y = at.y() + radius * std::sin(angle);
        const int x0 = static_cast<int>(std::floor(x));
        const int y0 = static_cast<int>(std::floor(y));
        if (!image.readable(x0, y0) || !image.readable(x0 + 1, y0 + 1)) {
            return std::nullopt;
        }
        const double fx = x - x0;
        const double fy = y - y0;
        ring.grey.push_back((1 - fy) * ((1 - fx) * image.at(x0, y0) + fx * image.at(x0 + 1, y0)) +
                            fy * ((1 - fx) * image.at(x0, y0 + 1) + fx * image.at(x0 + 1, y0 + 1)));
    }
    // Smoothed over about 2.5 px of the ring, so that grain makes no arms.
    std::vector<double> smooth(ring.grey.size());
    const int n = count;
    for (int i = 0; i < n; ++i) {
        double sum = 0;
        for (int k = -2; k <= 2; ++k) {
            sum += ring.grey[static_cast<std::size_t>((i + k + n) % n)];
        }
        smooth[static_cast<std::size_t>(i)] = sum / 5;
    }
    ring.grey = smooth;
    return ring;
}

/// Directions (rad) in which the ring meets a drawn line (middle of a dark run), or an edge.
std::vector<double> armsOf(const Ring& ring, Fit fit) {
    const auto [low, high] = std::minmax_element(ring.grey.begin(), ring.grey.end());
    const double level = 0.5 * (*low + *high);
    const auto n = static_cast<int>(ring.grey.size());
    const auto dark = [&](int i) {
        return ring.grey[static_cast<std::size_t>((i + n) % n)] < level;
    };
    std::vector<double> changes;  // index of each crossing of the level, and whether it gets dark
    std::vector<bool> intoDark;
    for (int i = 0; i < n; ++i) {
        if (dark(i) != dark(i + 1)) {
            const double a = ring.grey[static_cast<std::size_t>(i)];
            const double b = ring.grey[static_cast<std::size_t>((i + 1) % n)];
            changes.push_back(i + (level - a) / (b - a));
            intoDark.push_back(dark(i + 1));
        }
    }
    std::vector<double> arms;
    for (std::size_t k = 0; k < changes.size(); ++k) {
        if (fit == Fit::Corner) {
            arms.push_back(ring.angle(changes[k]));
        } else if (intoDark[k]) {
            double until = changes[(k + 1) % changes.size()];
            until += until < changes[k] ? n : 0;
            // A dark run wider than a fifth of the ring is no drawn line.
            if (until - changes[k] < 0.2 * n) {
                arms.push_back(ring.angle(0.5 * (changes[k] + until)));
            }
        }
    }
    return arms;
}

/// A line through the crossing: the directions of its arms.
struct Arms {
    std::vector<double> angles;
};

double between(double a, double b) {
    return std::abs(std::remainder(a - b, 2 * kPi));
}

/// Two lines of 2, 3 or 4 arms (L, T and X); other counts, or two arms in line, give no crossing.
std::vector<Arms> linesOf(std::vector<double> arms) {
    std::sort(arms.begin(), arms.end());
    if (arms.size() == 4) {
        return {{{arms[0], arms[2]}}, {{arms[1], arms[3]}}};
    }
    if (arms.size() == 2 && kPi - between(arms[0], arms[1]) > kSameLine) {
        return {{{arms[0]}}, {{arms[1]}}};
    }
    if (arms.size() == 3) {
        std::size_t stem = 0;
        for (std::size_t i = 1; i < 3; ++i) {
            const auto straight = [&arms](std::size_t left) {
                return between(arms[(left + 1) % 3], arms[(left + 2) % 3]);
            };
            stem = straight(i) > straight(stem) ? i : stem;
        }
        return {{{arms[(stem + 1) % 3], arms[(stem + 2) % 3]}}, {{arms[stem]}}};
    }
    return {};
}

tl::unexpected<Refusal> none(const MarkRequest& request, std::string_view why) {
    return refuse(Code::NoFit, "/points/0",
                  fmt::format("no {} within {:.3g} px: {}; place it nearer, or use fit none",
                              request.fit == Fit::Corner ? "corner of two edges"
                                                         : "crossing of two drawn lines",
                              request.searchPx, why));
}

PixelPoint direction(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

/// The line through its arms' ring points, and the stretches of it outside the crossing.
Result<StraightFit> fitArms(const raster::GreyImage& image, const PixelPoint& at, const Arms& arms,
                            Fit fit, double inner, double outer, double reach) {
    const double ring = 0.5 * (inner + outer);
    PixelPoint p = at + direction(arms.angles[0]) * ring;
    PixelPoint q = at;
    const Profile profile = fit == Fit::Corner ? Profile::Edge : Profile::DrawnLine;
    if (arms.angles.size() == 2) {
        q = at + direction(arms.angles[1]) * ring;
        const double length = (q - p).norm();
        const double overhang = outer - ring;
        return fitStraight(image, p, q, profile, reach,
                           {{-overhang, ring - inner}, {length - ring + inner, length + overhang}});
    }
    return fitStraight(image, q, p, profile, reach, {{inner, outer}});
}

/// Crossing of two fitted lines, with the covariance that their offsets and tilts give it.
struct Crossing {
    PixelPoint at = PixelPoint::Zero();
    Eigen::Matrix2d covariance = Eigen::Matrix2d::Zero();
};

std::optional<Crossing> cross(const StraightFit& a, const StraightFit& b) {
    const PixelPoint da = (a.along + a.beta * a.normal).normalized();
    const PixelPoint db = (b.along + b.beta * b.normal).normalized();
    Eigen::Matrix2d normals;
    normals << -da.y(), da.x(), -db.y(), db.x();
    if (std::abs(normals.determinant()) < std::sin(kLeastAngle)) {
        return std::nullopt;
    }
    const PixelPoint pa = a.at(0);
    const PixelPoint pb = b.at(0);
    const Eigen::Vector2d offsets(normals.row(0).dot(pa), normals.row(1).dot(pb));
    const Eigen::Matrix2d inverse = normals.inverse();
    Crossing crossing;
    crossing.at = inverse * offsets;
    const double ta = (crossing.at - a.origin).dot(a.along);
    const double tb = (crossing.at - b.origin).dot(b.along);
    const Eigen::Vector2d variances(a.variance(ta), b.variance(tb));
    crossing.covariance = inverse * variances.asDiagonal() * inverse.transpose();
    return crossing;
}

}  // namespace

Result<FittedMark> fitCrossing(const raster::GreyImage& image, const MarkRequest& request) {
    PixelPoint at = request.points.front();
    const double reach = request.searchPx;
    std::optional<Crossing> crossing;
    double rms = 0;
    long pixels = 0;
    double width = 0;
    // First about the placed point with a wide reach, then about the crossing found.
    for (int round = 0; round < 3; ++round) {
        const double ringRadius = 2 * reach + 2;
        const auto ring = ringOf(image, at, ringRadius);
        if (!ring) {
            return refuse(Code::OutsideSheet, "/points/0",
                          "the crossing lies too near the border of the sheet or of a part that "
                          "could not be decoded");
        }
        const std::vector<double> arms = armsOf(*ring, request.fit);
        const std::vector<Arms> lines = linesOf(arms);
        if (lines.size() != 2) {
            return none(request,
                        fmt::format("{} arm(s) leave it, which give no crossing", arms.size()));
        }
        const double inner = std::max(4.0, round == 0 ? reach : 0.75 * reach);
        const double outer = 3 * reach + 4;
        std::vector<StraightFit> fits;
        for (const Arms& line : lines) {
            auto fit =
                fitArms(image, at, line, request.fit, inner, outer, std::max(2.0, 0.5 * reach));
            if (!fit) {
                return none(request, fit.error().help);
            }
            fits.push_back(*fit);
        }
        crossing = cross(fits[0], fits[1]);
        if (!crossing) {
            return none(request, "the two lines are nearly parallel");
        }
        rms = std::hypot(fits[0].rmsPx, fits[1].rmsPx) / std::numbers::sqrt2;
        width = 0.5 * (fits[0].widthPx + fits[1].widthPx);
        pixels = fits[0].pixels + fits[1].pixels;
        const double moved = (crossing->at - at).norm();
        if ((crossing->at - request.points.front()).norm() > 1.5 * reach) {
            return none(request, "the lines cross further away");
        }
        at = crossing->at;
        if (round > 0 && moved < 0.05) {
            break;
        }
    }
    FittedMark mark;
    mark.kind = request.kind;
    mark.made = request.fit;
    mark.points = {crossing->at};
    mark.covariance = crossing->covariance;
    if (request.fit == Fit::Corner) {
        mark.covariance += Eigen::Matrix2d::Identity() * request.edgeBiasPx * request.edgeBiasPx;
    } else {
        mark.widthPx = width;
    }
    mark.rmsPx = rms;
    mark.used = pixels;
    return mark;
}

}  // namespace imaging::mark

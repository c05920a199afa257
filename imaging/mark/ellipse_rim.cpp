#include "imaging/mark/ellipse_rim.h"

#include "evidence-core/frame/ellipse.h"
#include "imaging/mark/rim_sectors.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::mark {
namespace {

using evidence::frame::Ellipse;
using evidence::frame::RimEllipse;
constexpr double kPi = std::numbers::pi;
constexpr int kLeastSectors = 12;
constexpr int kMostSectors = 360;

Arc arcOf(std::span<const PixelPoint> rough, const Ellipse& ellipse) {
    std::vector<double> feet;
    for (const PixelPoint& p : rough) {
        feet.push_back(std::remainder(ellipse.foot(p), 2 * kPi));
    }
    return arcCovered(std::move(feet));
}

/// Sectors of about equal length along the rim.
std::vector<SectorPlace> placesOn(const Ellipse& ellipse, const Arc& arc) {
    constexpr int kFine = 720;
    std::vector<double> run(kFine + 1);
    for (int i = 0; i < kFine; ++i) {
        const double t = arc.from + arc.extent * (i + 0.5) / kFine;
        const double speed = std::hypot(ellipse.a * std::sin(t), ellipse.b * std::cos(t));
        run[static_cast<std::size_t>(i) + 1] =
            run[static_cast<std::size_t>(i)] + speed * arc.extent / kFine;
    }
    const double length = run.back();
    const int count = std::clamp(static_cast<int>(std::lround(length / kSectorLength)),
                                 kLeastSectors, kMostSectors);
    std::vector<SectorPlace> places;
    for (int i = 0; i < count; ++i) {
        const double wanted = length * (i + 0.5) / count;
        const auto it = std::lower_bound(run.begin(), run.end(), wanted);
        const double t = arc.from + arc.extent * static_cast<double>(it - run.begin()) / kFine;
        const PixelPoint n = ellipse.normal(t);
        const double radius = ellipse.curvatureRadius(t);
        SectorPlace place;
        place.radius = radius;
        place.bend = ellipse.at(t) - radius * n;
        place.angle = std::atan2(n.y(), n.x());
        place.half = 0.5 * std::min(length / count, 2 * kSectorLength) / radius;
        places.push_back(place);
    }
    return places;
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct Solved {
    RimEllipse rim;
    std::vector<RimPoint> kept;
};

/// Weighted ellipse through the sectors' points, outliers left out by their robust size.
std::optional<Solved> throughSectors(const std::vector<RimPoint>& sectors) {
    Solved solved;
    solved.kept = sectors;
    for (int round = 0; round < 8; ++round) {
        std::vector<PixelPoint> points;
        std::vector<double> weights;
        for (const RimPoint& p : solved.kept) {
            points.push_back(p.at);
            weights.push_back(1 / p.variance);
        }
        const auto fit = evidence::frame::ellipseThrough(points, weights);
        if (!fit) {
            return std::nullopt;
        }
        solved.rim = *fit;
        std::vector<double> sizes;
        for (const RimPoint& p : sectors) {
            const double t = fit->ellipse.foot(p.at);
            const double d = fit->ellipse.normal(t).dot(p.at - fit->ellipse.at(t));
            sizes.push_back(std::abs(d) / std::sqrt(p.variance));
        }
        const double limit = 4 * std::max(1.0, 1.4826 * median(sizes));
        std::vector<RimPoint> kept;
        for (std::size_t i = 0; i < sectors.size(); ++i) {
            if (sizes[i] <= limit) {
                kept.push_back(sectors[i]);
            }
        }
        if (kept.size() < 6) {
            return std::nullopt;
        }
        const bool same = kept.size() == solved.kept.size();
        solved.kept = std::move(kept);
        if (same) {
            break;
        }
    }
    return solved;
}

double apart(const Ellipse& a, const Ellipse& b) {
    return (a.centre - b.centre).norm() + std::abs(a.a - b.a) + std::abs(a.b - b.b) +
           std::abs(std::sin(a.angle - b.angle)) * (a.a - a.b);
}

}  // namespace

Result<EllipseRimFit> fitEllipseRim(const raster::GreyImage& image,
                                    std::span<const PixelPoint> rough, Profile profile,
                                    double reach) {
    const auto start = evidence::frame::ellipseThrough(rough);
    if (!start) {
        return refuse(Code::BadValue, "/points",
                      "the points give no ellipse: they lie on a line, or coincide");
    }
    if (start->covered * 180 / kPi < kLeastArc) {
        return refuse(Code::BadValue, "/points",
                      fmt::format("the points span {:.3g} degrees of the ellipse, which leaves its "
                                  "axes open: {} are needed",
                                  start->covered * 180 / kPi, kLeastArc));
    }
    Ellipse ellipse = start->ellipse;
    const Arc arc = arcOf(rough, ellipse);
    std::optional<Solved> solved;
    RimSectors sectors;
    double near = reach;
    for (int round = 0; round < 5; ++round) {
        sectors = measureSectors(image, placesOn(ellipse, arc), profile, near);
        solved.reset();
        if (static_cast<int>(sectors.found.size()) * 2 < sectors.tried ||
            sectors.found.size() < 6) {
            break;
        }
        solved = throughSectors(sectors.found);
        if (!solved || !(solved->rim.ellipse.a < 1e6)) {
            solved.reset();
            break;
        }
        const double moved = apart(solved->rim.ellipse, ellipse);
        ellipse = solved->rim.ellipse;
        near = std::min(reach, std::max(2.0, 0.5 * reach));
        if (moved < 0.03) {
            break;
        }
    }
    if (sectors.unreadable * 5 > sectors.looked) {
        return refuse(Code::OutsideSheet, "",
                      "the mark lies outside the sheet or in a part that could not be decoded");
    }
    if (!solved || static_cast<int>(solved->kept.size()) * 2 < sectors.tried) {
        return refuse(Code::NoFit, "",
                      fmt::format("no rim of {} stands out of the noise within {:.3g} px of the "
                                  "placed points ({} of {} sectors show one); place them nearer "
                                  "the rim, or use fit none",
                                  profile == Profile::Edge ? "an edge" : "a drawn line", reach,
                                  sectors.found.size(), sectors.tried));
    }
    EllipseRimFit fit;
    fit.ellipse = {ellipse.centre, ellipse.a, ellipse.b, ellipse.angle, solved->rim.covariance};
    const auto count = static_cast<double>(solved->kept.size());
    const double freedom = count - 5;
    const double ratio = freedom > 0 ? solved->rim.squares / freedom : 1;
    if (freedom > 0 && ratio > 1 + std::sqrt(2 / freedom)) {
        fit.ellipse.covariance *= ratio;
    }
    for (const RimPoint& p : solved->kept) {
        fit.widthPx += p.width / count;
        fit.pixels += p.pixels;
    }
    fit.rmsPx = solved->rim.rms;
    return fit;
}

}  // namespace imaging::mark

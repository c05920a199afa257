#include "imaging/mark/rim.h"

#include "evidence-core/frame/circle.h"
#include "imaging/mark/rim_sectors.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace imaging::mark {
namespace {

constexpr int kLeastSectors = 8;
constexpr int kMostSectors = 360;

Arc arcOf(std::span<const PixelPoint> rough, const PixelPoint& centre) {
    std::vector<double> angles;
    for (const PixelPoint& p : rough) {
        angles.push_back(std::atan2(p.y() - centre.y(), p.x() - centre.x()));
    }
    return arcCovered(std::move(angles));
}

RimSectors measure(const raster::GreyImage& image, const CircleFit& circle, const Arc& arc,
                   Profile profile, double reach) {
    const int count =
        std::clamp(static_cast<int>(std::lround(arc.extent * circle.radius / kSectorLength)),
                   kLeastSectors, kMostSectors);
    const double step = arc.extent / count;
    // A whole circle of many pixels is sampled by sectors with gaps, a small one without.
    const double half = 0.5 * std::min(step, 2 * kSectorLength / circle.radius);
    std::vector<SectorPlace> places;
    places.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        places.push_back({circle.centre, circle.radius, arc.from + (i + 0.5) * step, half});
    }
    return measureSectors(image, places, profile, reach);
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct Solved {
    CircleFit circle;
    double chi2 = 0;
    std::vector<RimPoint> kept;
    std::vector<double> residuals;
};

/// Weighted circle through the sectors' rim points, outliers left out by their robust size.
std::optional<Solved> throughSectors(const CircleFit& start, const std::vector<RimPoint>& sectors) {
    std::vector<PixelPoint> rim;
    std::vector<double> offs;
    for (const RimPoint& sector : sectors) {
        rim.push_back(sector.at);
        offs.push_back((sector.at - start.centre).norm());
    }
    Solved solved;
    solved.circle = start;
    solved.circle.radius = median(offs);
    for (int round = 0; round < 30; ++round) {
        const CircleFit& c = solved.circle;
        std::vector<double> sizes;
        std::vector<double> residuals;
        for (std::size_t i = 0; i < rim.size(); ++i) {
            residuals.push_back((rim[i] - c.centre).norm() - c.radius);
            sizes.push_back(std::abs(residuals[i]) / std::sqrt(sectors[i].variance));
        }
        const double limit = 4 * std::max(1.0, 1.4826 * median(sizes));
        Eigen::Matrix3d a = Eigen::Matrix3d::Zero();
        Eigen::Vector3d b = Eigen::Vector3d::Zero();
        solved.kept.clear();
        solved.residuals.clear();
        solved.chi2 = 0;
        for (std::size_t i = 0; i < rim.size(); ++i) {
            if (sizes[i] > limit) {
                continue;
            }
            const PixelPoint n = (rim[i] - c.centre).normalized();
            const Eigen::Vector3d row(n.x(), n.y(), 1);
            a += row * row.transpose() / sectors[i].variance;
            b += row * residuals[i] / sectors[i].variance;
            solved.chi2 += sizes[i] * sizes[i];
            solved.kept.push_back(sectors[i]);
            solved.residuals.push_back(residuals[i]);
        }
        const Eigen::LDLT<Eigen::Matrix3d> ldlt(a);
        const Eigen::Vector3d move = ldlt.solve(b);
        if (solved.kept.size() < 4 || !move.allFinite()) {
            return std::nullopt;
        }
        solved.circle.centre += move.head<2>();
        solved.circle.radius += move(2);
        solved.circle.covariance = ldlt.solve(Eigen::Matrix3d::Identity());
        if (!(solved.circle.radius > 0)) {
            return std::nullopt;
        }
        if (move.norm() < 1e-9 && round > 2) {
            return solved;
        }
    }
    return solved;
}

}  // namespace

Result<RimFit> fitRim(const raster::GreyImage& image, std::span<const PixelPoint> rough,
                      Profile profile, double reach) {
    const auto start = evidence::frame::circleThrough(rough);
    if (!start) {
        return refuse(Code::BadValue, "/points",
                      "the points lie on one line or coincide: they give no circle");
    }
    const char* what = profile == Profile::Edge ? "edge" : "drawn line";
    CircleFit circle{start->centre, start->radius, Eigen::Matrix3d::Zero()};
    const Arc arc = arcOf(rough, circle.centre);
    std::optional<Solved> solved;
    RimSectors sectors;
    double near = reach;
    for (int round = 0; round < 4; ++round) {
        if (!(circle.radius < 1e6)) {
            solved.reset();
            break;
        }
        sectors = measure(image, circle, arc, profile, near);
        if (static_cast<int>(sectors.found.size()) * 2 < sectors.tried ||
            sectors.found.size() < 4) {
            solved.reset();
            break;
        }
        solved = throughSectors(circle, sectors.found);
        if (!solved) {
            break;
        }
        const double moved = (solved->circle.centre - circle.centre).norm() +
                             std::abs(solved->circle.radius - circle.radius);
        circle = solved->circle;
        near = std::min(reach, std::max(2.0, 0.5 * reach));
        if (moved < 0.02) {
            break;
        }
    }
    if (sectors.unreadable * 5 > sectors.looked) {
        return refuse(Code::OutsideSheet, "",
                      "the mark lies outside the sheet or in a part that could not be decoded");
    }
    if (!solved || static_cast<int>(solved->kept.size()) * 2 < sectors.tried) {
        return refuse(
            Code::NoFit, "",
            fmt::format("no round {} stands out of the noise within {:.3g} px of the "
                        "placed points ({} of {} sectors show one); place them nearer the "
                        "rim, or use fit none",
                        what, reach, sectors.found.size(), sectors.tried));
    }
    RimFit fit;
    fit.circle = circle;
    const auto count = static_cast<double>(solved->kept.size());
    if (count > 3) {
        const double freedom = count - 3;
        const double ratio = solved->chi2 / freedom;
        if (ratio > 1 + std::sqrt(2 / freedom)) {
            fit.circle.covariance *= ratio;
        }
    }
    double squares = 0;
    for (std::size_t i = 0; i < solved->kept.size(); ++i) {
        squares += solved->residuals[i] * solved->residuals[i] / count;
        fit.widthPx += solved->kept[i].width / count;
        fit.pixels += solved->kept[i].pixels;
    }
    fit.rmsPx = std::sqrt(squares);
    return fit;
}

}  // namespace imaging::mark

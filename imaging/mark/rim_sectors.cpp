#include "imaging/mark/rim_sectors.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace imaging::mark {
namespace {

constexpr double kMargin = 8;  ///< px beyond reach, for the grounds

}  // namespace

Arc arcCovered(std::vector<double> angles) {
    constexpr double kPi = std::numbers::pi;
    std::sort(angles.begin(), angles.end());
    double widest = angles.front() + 2 * kPi - angles.back();
    std::size_t after = 0;
    for (std::size_t i = 1; i < angles.size(); ++i) {
        if (angles[i] - angles[i - 1] > widest) {
            widest = angles[i] - angles[i - 1];
            after = i;
        }
    }
    return widest <= kPi + 1e-9 ? Arc{} : Arc{angles[after], 2 * kPi - widest};
}

RimSectors measureSectors(const raster::GreyImage& image, std::span<const SectorPlace> places,
                          Profile profile, double reach) {
    RimSectors sectors;
    for (const SectorPlace& place : places) {
        const PixelPoint axis(std::cos(place.angle), std::sin(place.angle));
        const double inward = std::min(reach + kMargin, 0.9 * place.radius);
        const Band band = bandOf(image, place.bend + axis * place.radius, axis,
                                 reach + kMargin + place.radius * (1 - std::cos(place.half)),
                                 (place.radius + reach + kMargin) * std::sin(place.half) + 1);
        std::vector<Sample> polar;
        for (Sample sample : band.samples) {
            const PixelPoint away(sample.x - place.bend.x(), sample.y - place.bend.y());
            const double turn =
                std::remainder(std::atan2(away.y(), away.x()) - place.angle, 2 * std::numbers::pi);
            const double u = away.norm() - place.radius;
            if (std::abs(turn) > place.half || u < -inward || u > reach + kMargin) {
                continue;
            }
            sample.u = u;
            sample.v = turn * place.radius;
            polar.push_back(sample);
        }
        ++sectors.tried;
        sectors.unreadable += band.unreadable;
        sectors.looked += static_cast<long>(band.samples.size()) + band.unreadable;
        ProfileSearch search;
        search.profile = profile;
        search.reach = std::min(reach, 0.9 * place.radius);
        search.leastNoise = image.roundingNoise();
        const auto fit = fitProfile(polar, search);
        if (!fit) {
            continue;
        }
        const double radius = place.radius + fit->offset;
        sectors.found.push_back(
            {place.bend + axis * (radius + 0.5 * fit->blur * fit->blur / radius), axis,
             fit->variance * correlationFactor(fit->lags, axis, fit->blur), fit->width,
             fit->pixels});
    }
    return sectors;
}

}  // namespace imaging::mark

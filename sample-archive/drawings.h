#pragma once

#include "sample-archive/draw_views.h"
#include "sample-archive/sheet.h"
#include "sample-archive/truth.h"

#include <opencv2/core.hpp>

#include <cstdint>

namespace sample {

/// A drawing as a scan, with the geometry that tells where each of its lines lies.
struct Drawing {
    cv::Mat3b picture;
    Sheet sheet;
    View side;
    View end;
    View plan;

    [[nodiscard]] cv::Point2d onSide(double x, double y) const {
        return sheet.pixel(side.at(x, y));
    }
    [[nodiscard]] cv::Point2d onEnd(double x, double y) const { return sheet.pixel(end.at(x, y)); }
    [[nodiscard]] cv::Point2d onPlan(double x, double y) const {
        return sheet.pixel(plan.at(x, y));
    }
};

/// Source 1: general arrangement, 1:24, ink on linen, 1911.
[[nodiscard]] Drawing drawArrangement(const Railcar& car, std::uint64_t seed);
/// Source 2: tracing of it on paper, 1951: lower panel figured 42 1/2 for 24 1/2, plan 1.2 % short.
[[nodiscard]] Drawing drawTracing(const Railcar& car, std::uint64_t seed);
/// Source 3: hoops 2 and 9 at 1:12. `side` is hoop 2's view and `end` hoop 9's.
[[nodiscard]] Drawing drawHoops(const Railcar& car, std::uint64_t seed);
/// Source 4: the alteration of 1913, luggage bay a foot longer, 1:24.
[[nodiscard]] Drawing drawAlteration(const Railcar& car, std::uint64_t seed);

/// The car with the luggage bay lengthened by twelve inches, as altered in 1913.
[[nodiscard]] Railcar lengthened(Railcar car);

}  // namespace sample

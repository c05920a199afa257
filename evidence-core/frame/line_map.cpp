#include "evidence-core/frame/line_map.h"

#include "evidence-core/frame/plane_map.h"

namespace evidence::frame {

std::optional<Derived<5>> placeAlong(const LineMap& map, const Point& pixel) {
    const double n = (pixel - map.origin).dot(map.along) / map.unit;
    const double a = map.parameters(0);
    const double b = map.parameters(1);
    const double c = map.parameters(2);
    const double w = 1 + c * n;
    if (!(w > kLeastNearness)) {
        return std::nullopt;
    }
    Derived<5> place;
    place.value = (a * n + b) / w;
    const double byN = (a - c * place.value) / w / map.unit;
    place.jacobian << n / w, 1 / w, -place.value * n / w, byN * map.along.x(), byN * map.along.y();
    return place;
}

}  // namespace evidence::frame

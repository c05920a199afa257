#include "evidence-core/frame/off_plane.h"

namespace evidence::frame {

Derived<2> offPlaneFactor(double offset, double distance) {
    Derived<2> result;
    result.value = (distance - offset) / distance;
    result.jacobian << -1 / distance, offset / (distance * distance);
    return result;
}

}  // namespace evidence::frame

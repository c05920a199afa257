#include "evidence-core/frame/uniform.h"

#include <cmath>

namespace evidence::frame {

double parallelWithinRelative(double angle) {
    // 1 − cos θ without the loss of digits at small θ.
    const double half = std::sin(0.5 * angle);
    return 2 * half * half;
}

}  // namespace evidence::frame

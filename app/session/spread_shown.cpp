#include "app/session/spread_shown.h"

#include "evidence-core/quantity/interval.h"

#include <array>
#include <numbers>

namespace app::session {

namespace quantity = evidence::quantity;

quantity::ShownValue shownWithSpread(double value, const evidence::network::Spread& spread,
                                     quantity::Measure measure, const quantity::Display& display) {
    const std::array error{quantity::Component{spread.u, spread.shape}};
    const auto interval = quantity::coverage95(value, error);
    return quantity::shownValue(interval.low, value, interval.high, measure, display);
}

double rectangularHalfWidth(const evidence::network::Spread& spread) {
    return spread.u * std::numbers::sqrt3;
}

}  // namespace app::session

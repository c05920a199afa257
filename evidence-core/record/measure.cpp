#include "evidence-core/record/measure.h"

#include <cassert>

namespace evidence::record {

quantity::Measure measureOf(DimensionQuantity kind) {
    switch (kind) {
        case DimensionQuantity::Length:
        case DimensionQuantity::Diameter:
        case DimensionQuantity::Radius:
            return quantity::Measure::Length;
        case DimensionQuantity::Angle:
            return quantity::Measure::Angle;
        case DimensionQuantity::Area:
            return quantity::Measure::Area;
        case DimensionQuantity::Volume:
            return quantity::Measure::Volume;
        case DimensionQuantity::Mass:
            return quantity::Measure::Mass;
        case DimensionQuantity::Count:
        case DimensionQuantity::Ratio:
            return quantity::Measure::Number;
    }
    return quantity::Measure::Number;
}

quantity::Unit unitOf(const Dimension& dimension) {
    const auto measure = measureOf(dimension.quantity);
    if (!dimension.unit) return quantity::canonicalUnit(measure);
    const auto unit = quantity::unitNamed(*dimension.unit, measure);
    assert(unit);
    return unit ? *unit : quantity::canonicalUnit(measure);
}

}  // namespace evidence::record

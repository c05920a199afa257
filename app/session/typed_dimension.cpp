#include "app/session/typed_dimension.h"

#include "app/session/typed_amount.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

evidence::Result<DimensionDraft> draftOf(const TypedDimension& typed) {
    const auto measure = record::measureOf(typed.quantity);
    auto unit = quantity::canonicalUnit(measure);
    DimensionDraft draft;
    draft.name = typed.name;
    if (!typed.component.empty()) draft.component = typed.component;
    draft.quantity = typed.quantity;
    if (!typed.unit.empty()) {
        const auto named = quantity::unitNamed(typed.unit, measure);
        if (!named) return evidence::refuse(named.error().code, "unit", named.error().help);
        unit = *named;
        draft.unit = std::string(nameOf(unit));
    }
    const auto tolerance = typedAmount(typed.tolerance, unit, "tolerance");
    if (!tolerance) return tl::unexpected(tolerance.error());
    draft.tolerance = *tolerance;
    draft.critical = typed.critical;
    return draft;
}

std::vector<std::string> unitsFor(record::DimensionQuantity quantity) {
    const auto measure = record::measureOf(quantity);
    const auto canonical = quantity::canonicalUnit(measure);
    std::vector<std::string> names{std::string(nameOf(canonical))};
    for (int i = 0; i <= static_cast<int>(quantity::Unit::Percent); ++i) {
        const auto unit = static_cast<quantity::Unit>(i);
        if (unit != canonical && quantity::measureOf(unit) == measure)
            names.emplace_back(nameOf(unit));
    }
    return names;
}

}  // namespace app::session

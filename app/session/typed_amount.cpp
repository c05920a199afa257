#include "app/session/typed_amount.h"

#include "app/session/given_text.h"
#include "app/session/typed_value.h"

namespace app::session {

namespace quantity = evidence::quantity;

evidence::Result<std::optional<double>> typedAmount(std::string_view text, quantity::Unit unit,
                                                    std::string place) {
    if (isBlank(text)) return std::nullopt;
    const auto amount = typedValue(text, quantity::measureOf(unit), unit, place);
    if (!amount) return tl::unexpected(amount.error());
    if (amount->canonical < 0)
        return evidence::refuse(evidence::Code::BadValue, std::move(place),
                                "Give an amount of 0 or more.");
    // What was typed in the unit itself comes back as typed.
    if (amount->unit == quantity::canonicalUnit(quantity::measureOf(unit)) && unit == amount->unit)
        return amount->canonical;
    return quantity::fromCanonical(amount->canonical, unit);
}

}  // namespace app::session

#include "app/session/typed_value.h"

#include "app/session/given_text.h"

#include <fmt/format.h>

namespace app::session {

namespace quantity = evidence::quantity;

using evidence::Code;

evidence::Result<quantity::Written> typedValue(std::string_view text, quantity::Measure measure,
                                               quantity::Unit bareUnit, std::string place) {
    if (isBlank(text))
        return refuse(Code::MissingKey, std::move(place),
                      fmt::format("this needs a value ({})", nameOf(measure)));
    auto value = quantity::parseQuantity(text, measure, bareUnit);
    if (!value)
        return refuse(value.error().code, std::move(place),
                      fmt::format("\"{}\" cannot be read as {} ({}): {}", text, nameOf(measure),
                                  value.error().place, value.error().help));
    return *std::move(value);
}

std::optional<std::string> unitBeside(const quantity::Written& value) {
    if (value.unitWritten) return std::nullopt;
    return std::string(nameOf(value.unit));
}

}  // namespace app::session

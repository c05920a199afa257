#include "app/session/typed_table_row.h"

#include "app/session/given_text.h"
#include "app/session/typed_value.h"

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

evidence::Result<record::TableRow> tableRowOf(const TypedTableRow& typed) {
    record::TableRow row;
    row.kind = typed.kind;
    row.name = typed.name;
    row.measures = given(typed.measures);
    row.unit = typed.unit;
    row.era = given(typed.era);
    row.region = given(typed.region);
    row.note = given(typed.note);
    row.source = typed.source;
    const auto value =
        typedValue(typed.value, quantity::Measure::Number, quantity::Unit::One, "value");
    if (!value) return tl::unexpected(value.error());
    row.value = value->canonical;
    const auto u = typedValue(typed.u, quantity::Measure::Number, quantity::Unit::One, "u");
    if (!u) return tl::unexpected(u.error());
    row.u = u->canonical;
    return row;
}

}  // namespace app::session

#include "app/session/from_table.h"

#include "app/session/given_text.h"

#include <fmt/format.h>

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;
namespace trade = evidence::trade;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

std::string tableReason(const trade::Row& row, const std::string& asTyped) {
    const std::string measures = row.measures.empty() ? "" : ", " + row.measures;
    const bool says = row.source.find("from memory") != std::string::npos;
    return fmt::format("{}Table row {}: {}{}; {}{}.",
                       asTyped.empty() ? "" : fmt::format("\"{}\" as written. ", asTyped), row.id,
                       row.name, measures, row.source,
                       row.fromMemory && !says ? "; from memory" : "");
}

Result<record::KnownLength> lengthFromTable(const trade::Row& row, const std::string& asTyped) {
    if (row.kind != record::TableRowKind::Length)
        return evidence::refuse(Code::WrongUse, "length/value",
                                fmt::format("the table row \"{}\" is no length", row.id));
    record::KnownLength length;
    length.value = record::Number{row.value, row.valueText};
    length.unit = std::string(trade::nameOf(row.unit));
    length.u = row.u;
    length.source = row.ownSource;
    length.basis = row.ownSource ? record::Basis::Stated : record::Basis::TradeRule;
    length.reason = tableReason(row, asTyped);
    length.tableRow = row.id;
    return length;
}

Result<record::Correction> correctionFromTable(const trade::Row& row,
                                               const trade::Circumstances& circumstances,
                                               quantity::Unit unit) {
    const auto worked = trade::correctionBy(row, circumstances);
    if (!worked) return tl::unexpected<Refusal>(worked.error());
    record::Correction correction;
    correction.label = worked->label;
    correction.factor = worked->factor;
    correction.u = worked->u;
    if (worked->add) {
        correction.add = quantity::fromCanonical(worked->add->toInches(), unit);
        correction.u = quantity::fromCanonical(worked->u, unit);
    }
    correction.reason = worked->reason;
    correction.source = row.ownSource;
    correction.basis = row.ownSource ? record::Basis::Stated : record::Basis::TradeRule;
    correction.tableRow = row.id;
    return correction;
}

}  // namespace app::session

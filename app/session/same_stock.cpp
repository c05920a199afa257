#include "app/session/same_stock.h"

#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

std::string stockLabel(const evidence::trade::Row& row) {
    return fmt::format("density of {} ({})", row.name, row.id);
}

std::vector<StockPart> partsOfStock(const record::Register& reg, const evidence::trade::Row& row) {
    std::vector<StockPart> parts;
    for (const auto& error : reg.sharedErrors) {
        if (error.setAside || error.label != stockLabel(row)) continue;
        for (const auto& on : error.on) {
            const auto* relation = record::find(reg, record::RelationId{on.record.text});
            if (!relation || relation->setAside) continue;
            parts.push_back(
                {relation->id, relation->formula.substr(0, relation->formula.find(" ="))});
        }
    }
    return parts;
}

}  // namespace app::session

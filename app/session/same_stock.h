#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/trade/row.h"

#include <string>
#include <vector>

namespace app::session {

/// What the doubt of a material's density is called: by it the parts of one material are told.
[[nodiscard]] std::string stockLabel(const evidence::trade::Row& row);

/// A part whose mass is worked out with a row's density already.
struct StockPart {
    evidence::record::RelationId relation;
    std::string words;  ///< the mass it gives, as the formula names it
};
/// Parts that a further one may have been cut from the same board, or cast of the same metal, as.
[[nodiscard]] std::vector<StockPart> partsOfStock(const evidence::record::Register& reg,
                                                  const evidence::trade::Row& row);

}  // namespace app::session

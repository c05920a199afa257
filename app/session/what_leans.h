#pragma once

#include "evidence-core/record/register.h"

#include <string>
#include <vector>

namespace app::session {

/// Names of the dimensions and particulars that have evidence through `record` (a reading, mark,
/// scale, relation, shared error or source) which counts now, in the register's order: what setting
/// it aside touches at first hand.
[[nodiscard]] std::vector<std::string> sizesLeaningOn(const evidence::record::AnyId& record,
                                                      const evidence::record::Register& reg);

}  // namespace app::session

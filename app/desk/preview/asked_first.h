#pragma once

#include "app/desk/analyst.h"
#include "evidence-core/record/decision.h"

#include <cstddef>
#include <vector>

namespace app::desk::preview {

/// The findings that a reviewer of the report will ask about first: high and medium ones, not
/// acknowledged, that concern what the filter lets through; as indices into the analysis, in its
/// order.
[[nodiscard]] std::vector<std::size_t> askedFirst(const Judged& judged,
                                                  const evidence::record::ReportFilter& filter);

}  // namespace app::desk::preview

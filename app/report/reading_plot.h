#pragma once

#include "app/report/figure/interval_figure.h"
#include "app/report/register_index.h"
#include "evidence-core/record/dimension.h"

namespace app::report {

/// The readings of a dimension that are not set aside, with their 95 % intervals, the size from all
/// evidence together and the ruled value, in the dimension's unit. Limits are open on one side. No
/// rows where nothing is known.
[[nodiscard]] figure::IntervalPlot readingPlot(const RegisterIndex& index,
                                               const evidence::record::Dimension& dimension);

}  // namespace app::report

#pragma once

#include "app/report/register_index.h"
#include "evidence-core/record/id.h"

#include <QString>

namespace app::desk::thread {

/// The chosen size in one line: name, value with ± (half of the 95 % interval), grade sign. Rich
/// text. Empty where the register does not know the id or the analysis has not come to it yet.
[[nodiscard]] QString headWords(const report::RegisterIndex& index,
                                const evidence::record::AnyId& size);

/// Why it has that grade, what would raise it, what was ruled, the relations it stands in and where
/// the build departs. Rich text: codes are in tooltips.
[[nodiscard]] QString threadWords(const report::RegisterIndex& index,
                                  const evidence::record::AnyId& size);

}  // namespace app::desk::thread

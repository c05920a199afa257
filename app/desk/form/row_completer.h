#pragma once

#include "evidence-core/record/register.h"

#include <vector>

class QLineEdit;

namespace app::desk::form {

/// Completes what is typed with the rows of the trade tables of those kinds.
void completeWithRows(QLineEdit* line, const evidence::record::Register& reg,
                      const std::vector<evidence::record::TableRowKind>& kinds);

}  // namespace app::desk::form

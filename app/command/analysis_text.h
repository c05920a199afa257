#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <optional>
#include <string>

namespace app::command {

/// "high", "medium", "low" or "note"; absent for any other word.
[[nodiscard]] std::optional<evidence::judgement::Severity> severityByName(const std::string& name);

/// Seven lines: what the register holds, how its sizes are held up, what to settle first.
[[nodiscard]] std::string briefText(const evidence::record::Register& reg,
                                    const evidence::judgement::Analysis& analysis);

/// The brief, every dimension on a line, and the findings in the order to settle them.
[[nodiscard]] std::string fullText(const evidence::record::Register& reg,
                                   const evidence::judgement::Analysis& analysis);

}  // namespace app::command

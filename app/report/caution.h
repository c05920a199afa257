#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/dimension.h"

namespace app::report {

/// Why a safety-critical size must carry its caution in words wherever it is shown.
enum class Caution { None, RestsOnGuess, InConflict };

[[nodiscard]] Caution cautionOn(const evidence::record::Dimension& dimension,
                                const evidence::judgement::DimensionResult& result);

}  // namespace app::report

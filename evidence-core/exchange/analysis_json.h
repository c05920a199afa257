#pragma once

#include "evidence-core/judgement/analysis.h"

#include <string>

namespace evidence::exchange {

/// The analysis as `analyse --json` prints it (docs/exchange.md): key order of the contract, twelve
/// significant digits, `null` for what is absent, two-space indent, a line end at the end. Lists
/// are printed in the order the analysis has them.
[[nodiscard]] std::string analysisJson(const judgement::Analysis& analysis);

}  // namespace evidence::exchange

#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <string>

namespace evidence::exchange {

/// Why a dimension or particular is what it is, as `explain --json` prints it: its row of the
/// analysis, of a dimension how well its readings agree (null with one origin) and what Student's t
/// makes of its repeats (null without), its thread (nodes by stage from source to value, links with
/// shares of the doubt), its rulings, departures, slips and what was made, and the findings that
/// concern it. `null` alone for an id that names neither.
[[nodiscard]] std::string explainJson(const record::AnyId& on, const record::Register& reg,
                                      const judgement::Analysis& analysis);

}  // namespace evidence::exchange

#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <string>

namespace evidence::judgement {

/// Why a dimension or particular is what it is, as plain text for a terminal or a letter: the value
/// with half its 95 % interval, the grade and why, each piece of evidence with its share of the
/// doubt, what was set aside, rulings, departures, slips and findings, and what would raise it.
/// An id that names neither a dimension nor a particular gives the empty text.
[[nodiscard]] std::string explainText(const record::AnyId& on, const record::Register& reg,
                                      const Analysis& analysis);

/// The dimension or particular that a code or an id names; the empty id where there is none.
[[nodiscard]] record::AnyId namedBy(const std::string& codeOrId, const record::Register& reg);

}  // namespace evidence::judgement

#pragma once

#include "app/report/sections.h"

#include <vector>

namespace app::report {

/// What a finding says, in full: name, words, what would settle it, whom it concerns, and who let
/// it stand.
[[nodiscard]] Text findingWords(const RegisterIndex& index,
                                const evidence::judgement::Finding& finding);

/// Writes findings: those of a kind that is rare in full, those of a kind that is frequent as one
/// table of the values concerned.
void writeFindings(Writing& writing,
                   const std::vector<const evidence::judgement::Finding*>& findings);

/// Writes the values that only one witness bears, as one table: `findings` are those of the kinds
/// single-origin and single-reading.
void writeOneWitness(Writing& writing,
                     const std::vector<const evidence::judgement::Finding*>& findings);

}  // namespace app::report

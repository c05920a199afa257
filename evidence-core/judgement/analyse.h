#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace evidence::judgement {

/// What only the outside knows: the state of the files and of the journal.
struct Surroundings {
    std::vector<record::FileId> missingFiles;  ///< hash known, bytes absent
    std::vector<record::FileId> alteredFiles;  ///< bytes no longer match the hash
    std::optional<std::string> brokenJournal;  ///< what is broken
};

struct AnalyseOptions {
    std::vector<std::string> covariance;  ///< codes or ids of dimensions whose covariance is wanted
    Surroundings surroundings;
};

/// The network, the grades, the findings and what to look for next: a pure function of the
/// register. Same register, same numbers, any order of records.
/// Errors: BadFormula, BadUnit, BadValue or MissingTarget where a record cannot be used as written
/// (the exchange reader refuses these before they reach the store).
[[nodiscard]] Result<Analysis> analyse(const record::Register& reg,
                                       const AnalyseOptions& options = {});

}  // namespace evidence::judgement

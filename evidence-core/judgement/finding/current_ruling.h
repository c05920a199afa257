#pragma once

#include "evidence-core/judgement/index.h"

namespace evidence::judgement {

/// The ruling in force on a dimension or particular: the last that none supersedes; null where
/// there is none.
[[nodiscard]] const record::Ruling* currentRuling(const Index& index, const record::AnyId& on);

}  // namespace evidence::judgement

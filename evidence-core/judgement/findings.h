#pragma once

#include "evidence-core/judgement/finding/finder.h"

#include <vector>

namespace evidence::judgement {

/// All findings of a register: by severity, then |w| or size, then content. Each carries the
/// fingerprint of the evidence it rests on; one that was acknowledged with that fingerprint (or
/// without any) says so.
[[nodiscard]] std::vector<Finding> findingsOf(const Judged& judged);

}  // namespace evidence::judgement

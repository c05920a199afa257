#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/quantity/format.h"
#include "evidence-core/record/archive_info.h"
#include "evidence-core/record/dimension.h"

namespace app::session {

/// How this register shows its numbers: its display unit and smallest fraction.
[[nodiscard]] evidence::quantity::Display displayOf(
    const evidence::record::ArchiveInfo& archive,
    evidence::quantity::Typesetting type = evidence::quantity::Typesetting::Plain);

/// A dimension's result as people read it: value, ± half of the 95 % interval, unit. "not known"
/// where it cannot be worked out.
[[nodiscard]] evidence::quantity::ShownValue shown(
    const evidence::judgement::DimensionResult& result,
    const evidence::record::Dimension& dimension, const evidence::record::ArchiveInfo& archive,
    evidence::quantity::Typesetting type = evidence::quantity::Typesetting::Plain);

}  // namespace app::session

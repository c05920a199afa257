#pragma once

#include "evidence-core/judgement/context.h"

/// Private to judgement/: how well the readings of one size agree. Shown to whoever asks and never
/// applied: the variance factor is 1 always (docs/domain.md, "Analysis").
namespace evidence::judgement {

/// Of the best reading of each origin, its doubt with that of the scale it was read through; absent
/// with fewer than two such readings.
[[nodiscard]] std::optional<Agreement> agreementOf(const Context& context, std::size_t dimension);

/// What Student's t makes of the repeats behind a size: absent where no leaf that pulls it is a
/// reading of repeats.
[[nodiscard]] std::optional<RepeatsJudged> repeatsOf(const Context& context, std::size_t dimension);

}  // namespace evidence::judgement

#pragma once

#include "evidence-core/judgement/analysis.h"

#include <QString>

namespace app::desk {

/// How the register stands, in one line for the foot of the window: how many sizes, how many rest
/// on a guess, how many notes are to be settled first.
[[nodiscard]] QString stateInWords(const evidence::judgement::Analysis& analysis);

}  // namespace app::desk

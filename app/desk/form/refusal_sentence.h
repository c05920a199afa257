#pragma once

#include "evidence-core/refusal.h"

#include <QString>

namespace app::desk::form {

/// What a refusal says, as a whole sentence for the screen.
[[nodiscard]] QString refusalSentence(const evidence::Refusal& refusal);

}  // namespace app::desk::form

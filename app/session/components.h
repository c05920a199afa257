#pragma once

#include "evidence-core/record/register.h"

#include <string>
#include <vector>

namespace app::session {

/// Paths of the register's components and of what they are part of ("Body", "Body/Roof"), each
/// once, in order of letters.
[[nodiscard]] std::vector<std::string> componentsOf(const evidence::record::Register& reg);

}  // namespace app::session

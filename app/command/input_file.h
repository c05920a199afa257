#pragma once

#include "evidence-core/refusal.h"

#include <filesystem>
#include <string>

namespace app::command {

/// All of a file. Errors: MissingFile where it is not a file that can be read.
[[nodiscard]] evidence::Result<std::string> readWhole(const std::filesystem::path& file);

}  // namespace app::command

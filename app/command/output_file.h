#pragma once

#include "evidence-core/refusal.h"

#include <filesystem>
#include <string_view>

namespace app::command {

/// Whether an output that is already there is kept or replaced.
enum class Existing { Keep, Replace };

/// Refusal (WrongUse, exit 2) where `out` is there and is to be kept.
[[nodiscard]] evidence::Result<void> mayWrite(const std::filesystem::path& out, Existing existing);

/// Writes the whole of `text` under a temporary name, then renames it: the file appears whole or
/// not at all. System failures are std::filesystem::filesystem_error.
void writeWhole(const std::filesystem::path& out, std::string_view text);

}  // namespace app::command

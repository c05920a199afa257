#pragma once

#include "app/command/verb.h"
#include "app/session/archive.h"

#include <filesystem>
#include <memory>

namespace app::command {

/// The first argument of nearly every verb.
void addArchive(CLI::App& verb, std::filesystem::path& archive);

/// Opens `archive` for the acting person. Errors: NotAnArchive, NewerArchive, Damaged.
[[nodiscard]] evidence::Result<std::unique_ptr<session::Archive>> openArchive(
    const std::filesystem::path& archive, const Terminal& terminal);

}  // namespace app::command

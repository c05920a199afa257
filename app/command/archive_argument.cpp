#include "app/command/archive_argument.h"

#include <CLI/CLI.hpp>

namespace app::command {

void addArchive(CLI::App& verb, std::filesystem::path& archive) {
    verb.add_option("ARCHIVE", archive, "the archive's folder")->required();
}

evidence::Result<std::unique_ptr<session::Archive>> openArchive(
    const std::filesystem::path& archive, const Terminal& terminal) {
    return session::Archive::open(archive, {terminal.by, timeNow});
}

}  // namespace app::command

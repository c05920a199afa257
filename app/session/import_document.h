#pragma once

#include "app/session/archive.h"
#include "evidence-core/refusal.h"

#include <filesystem>
#include <optional>

namespace app::session {

struct ImportOptions {
    bool update = false;  ///< records whose ids are taken replace those of the archive
    std::optional<std::filesystem::path> files;  ///< a second folder to look for files in
};

/// Reads an exchange document into the archive: all of it or nothing, one journal entry.
/// Files are looked for beside the document, then in `files`, then in the archive by hash; those
/// with a known hash may be absent. Paths that lead out of those folders are not followed. Rulings
/// without a state of the evidence take that of now.
/// Errors: as `exchange::planImport`, the place being the JSON pointer; MissingFile for a file that
/// is neither there nor known by hash, HashMismatch for one whose bytes are not the promised ones.
evidence::Result<ChangeNotice> importDocument(Archive& archive,
                                              const std::filesystem::path& document,
                                              const ImportOptions& options = {});

}  // namespace app::session

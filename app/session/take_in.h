#pragma once

#include "app/session/archive.h"
#include "evidence-core/record/source.h"
#include "evidence-core/refusal.h"

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace app::session {

/// What became of one file that was taken in.
struct TakenIn {
    std::filesystem::path given;
    evidence::record::SourceId source;
    std::string code;          ///< of the source, such as "S4"
    bool alreadyHere = false;  ///< the same bytes belong to `source` already
    std::optional<std::string>
        refused;  ///< why it cannot be shown or measured; registered all the same
};

/// Files copied into the archive, and what would make sources of them.
struct TakeInPlan {
    std::vector<TakenIn> taken;
    evidence::record::ChangeSet changes;  ///< empty where all the bytes were here already
};

/// Copies `files` into the archive's originals, hashing while copying, and plans a source of each:
/// one action. The bytes given are never altered. Without `kind` a picture is a photograph and
/// anything else a text, until a person says otherwise.
/// Errors: MissingFile, naming the file; then nothing is to be registered.
evidence::Result<TakeInPlan> planTakeIn(Archive& archive,
                                        std::span<const std::filesystem::path> files,
                                        std::optional<evidence::record::SourceKind> kind);

/// `planTakeIn`, carried out.
evidence::Result<std::vector<TakenIn>> takeIn(Archive& archive,
                                              std::span<const std::filesystem::path> files,
                                              std::optional<evidence::record::SourceKind> kind);

}  // namespace app::session

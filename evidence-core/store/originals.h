#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace evidence::store {

/// The folder `originals/` of an archive: files by SHA-256, never altered.
class Originals {
  public:
    explicit Originals(std::filesystem::path archive);

    struct Added {
        std::string sha256;
        std::int64_t bytes = 0;
    };

    /// Copies a regular file in, hashing in the same reading, under the name that
    /// `exchange::originalsPath` gives it: first under a temporary name, then synced, renamed and
    /// set read-only. Nothing is copied where the same bytes are there already. `given` is what the
    /// document says of the file (its hash, its original name).
    /// Errors: MissingFile (not there, not a regular file, not readable), HashMismatch (the hash in
    /// `given`, or the file changed while it was read). The place is the file's name.
    Result<Added> add(const std::filesystem::path& from, const record::File& given);

    /// Where the bytes of a file lie; nothing where they are absent or no hash is known.
    [[nodiscard]] std::optional<std::filesystem::path> find(const record::File& file) const;

    struct Fixity {
        std::vector<record::FileId> missing;  ///< hash known, bytes absent
        std::vector<record::FileId> altered;  ///< bytes no longer match the hash
    };
    /// Reads every original of the register and compares its hash.
    [[nodiscard]] Fixity verifyFixity(const record::Register& reg) const;

  private:
    std::filesystem::path m_archive;
};

/// SHA-256 and size of a regular file. Errors: MissingFile.
[[nodiscard]] Result<Originals::Added> fingerprintOf(const std::filesystem::path& file);

}  // namespace evidence::store

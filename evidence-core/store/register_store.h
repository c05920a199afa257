#pragma once

#include "evidence-core/record/change.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"
#include "evidence-core/store/journal.h"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace evidence::store {

/// Who does something and when (RFC 3339 in UTC). The journal keeps the name beside the id, because
/// not everybody who acts need be a person of the register.
struct Act {
    record::PersonId by;
    std::string name;
    std::string at;
};

/// The register at one moment.
struct Loaded {
    std::uint64_t sequence = 0;  ///< of the last journal entry in it
    record::Register reg;
};

/// One archive folder's register: `register.sqlite` (docs/schema.md). One thread, one connection;
/// several programs may have the same archive open. Bad input is a refusal, a failing system an
/// exception; in both cases nothing is changed.
class RegisterStore {
  public:
    /// Makes the folder (which must not exist, or be empty) with an empty register, `originals/`
    /// and `derived/`. Errors: WrongUse.
    static Result<std::unique_ptr<RegisterStore>> create(const std::filesystem::path& folder,
                                                         const record::ArchiveInfo& info,
                                                         const Act& act);
    /// Errors: NotAnArchive, NewerArchive, Damaged; the folder is not changed then.
    static Result<std::unique_ptr<RegisterStore>> open(const std::filesystem::path& folder);
    ~RegisterStore();

    [[nodiscard]] const std::filesystem::path& folder() const;

    /// Everything, with relations printed by current codes. Errors: Damaged.
    [[nodiscard]] Result<Loaded> load();

    /// Carries out all changes in one transaction with one journal entry and returns its sequence
    /// number; an empty set changes nothing. Errors: Stale where a `before` is no longer what the
    /// register holds (says who changed it and when), DuplicateId for an id that is taken,
    /// MissingTarget where the register would refer to a record that is not there, BadValue for
    /// text that is not UTF-8, Damaged.
    Result<std::uint64_t> apply(const record::ChangeSet& set, const Act& act);

    /// Of the last journal entry, also by other programs.
    [[nodiscard]] std::uint64_t lastSequence();

    /// Entries with a sequence number above `after`, oldest first.
    [[nodiscard]] std::vector<JournalEntry> journal(std::uint64_t after = 0);

    /// The register after the last entry that is not later than `time` (RFC 3339 in UTC).
    /// Errors: BadDate, Damaged.
    [[nodiscard]] Result<record::Register> atMoment(std::string_view time);

    /// What is broken in the journal: a link of the chain, or that replaying it does not give the
    /// register as it is. Nothing where all holds.
    [[nodiscard]] std::optional<std::string> verifyChain();

    /// What SQLite finds wrong with the whole file (`integrity_check`); nothing where all holds.
    [[nodiscard]] std::optional<std::string> verifyDatabase();

    /// A place where words were found.
    struct Hit {
        std::string kind;  ///< "reading", "source" … (record/kind.h)
        record::AnyId id;
        std::string excerpt;  ///< the words between [ and ]
    };
    /// Records in which all `words` occur (case and accents folded, a word also as the beginning of
    /// a longer one), best first.
    [[nodiscard]] std::vector<Hit> search(std::string_view words, int most = 200);

  private:
    struct Connection;
    RegisterStore(std::filesystem::path folder, std::unique_ptr<Connection> connection);

    std::filesystem::path m_folder;
    std::unique_ptr<Connection> m_connection;
};

}  // namespace evidence::store

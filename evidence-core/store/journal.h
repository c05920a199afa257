#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The append-only list of every change, chained by SHA-256.
namespace evidence::store {

/// One change as the journal holds it: compact JSON of the record before and after, formulas by id.
/// Empty: there was, or is, no record.
struct JournalChange {
    std::string table;
    std::string before;
    std::string after;
};

struct JournalEntry {
    std::uint64_t sequence = 0;
    std::string at;  ///< RFC 3339 in UTC
    record::PersonId by;
    std::string name;  ///< of the person, as it was
    std::string what;
    std::string previous;  ///< hash of the entry before; 64 zeros for the first
    std::string hash;
    std::string changes;  ///< JSON: [{"table", "before", "after"}]
};

/// SHA-256 of the canonical bytes: the compact JSON of
/// `[previous, sequence, at, by, name, what, changes]`, `changes` being the list itself.
[[nodiscard]] std::string hashOf(const JournalEntry& entry);

[[nodiscard]] std::uint64_t lastSequence(SQLite::Database& db);

/// Appends an entry; its sequence number, `previous` and `hash` are worked out here.
std::uint64_t appendToJournal(SQLite::Database& db, JournalEntry entry,
                              const std::vector<JournalChange>& changes);

/// Calls `visit` for each entry, oldest first; backwards with `newestFirst`. Stops where it returns
/// false.
void forEachEntry(SQLite::Database& db, bool newestFirst,
                  const std::function<bool(const JournalEntry&)>& visit);

/// Errors: Damaged.
[[nodiscard]] Result<std::vector<JournalChange>> changesOf(const JournalEntry& entry);

/// What is broken in the chain, in one sentence; nothing where it holds.
[[nodiscard]] std::optional<std::string> brokenLink(SQLite::Database& db);

}  // namespace evidence::store

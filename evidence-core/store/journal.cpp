#include "evidence-core/store/journal.h"

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/exchange/to_json.h"
#include "evidence-core/store/digest.h"

#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>

namespace evidence::store {

namespace {

using exchange::Json;

const std::string& noHash() {
    static const std::string zeros(64, '0');
    return zeros;
}

std::string quoted(const std::string& text) {
    return printJson(Json{text}, exchange::Layout::Compact);
}

JournalEntry entryFrom(const SQLite::Statement& row) {
    JournalEntry entry;
    entry.sequence = static_cast<std::uint64_t>(row.getColumn(0).getInt64());
    entry.at = row.getColumn(1).getString();
    entry.by.text = row.getColumn(2).getString();
    entry.name = row.getColumn(3).getString();
    entry.what = row.getColumn(4).getString();
    entry.changes = row.getColumn(5).getString();
    entry.previous = row.getColumn(6).getString();
    entry.hash = row.getColumn(7).getString();
    return entry;
}

}  // namespace

std::string hashOf(const JournalEntry& entry) {
    Sha256 sha;
    sha.add(fmt::format("[{},{},{},{},{},{},", quoted(entry.previous), entry.sequence,
                        quoted(entry.at), quoted(entry.by.text), quoted(entry.name),
                        quoted(entry.what)));
    sha.add(entry.changes);
    sha.add("]");
    return sha.finish();
}

std::uint64_t lastSequence(SQLite::Database& db) {
    return static_cast<std::uint64_t>(
        db.execAndGet("SELECT coalesce(max(sequence), 0) FROM journal").getInt64());
}

std::uint64_t appendToJournal(SQLite::Database& db, JournalEntry entry,
                              const std::vector<JournalChange>& changes) {
    entry.previous = noHash();
    forEachEntry(db, true, [&](const JournalEntry& last) {
        entry.sequence = last.sequence;
        entry.previous = last.hash;
        return false;
    });
    ++entry.sequence;
    entry.changes = "[";
    for (const auto& change : changes) {
        entry.changes += entry.changes.size() > 1 ? ",{" : "{";
        entry.changes += "\"table\":" + quoted(change.table);
        if (!change.before.empty()) entry.changes += ",\"before\":" + change.before;
        if (!change.after.empty()) entry.changes += ",\"after\":" + change.after;
        entry.changes += '}';
    }
    entry.changes += ']';

    SQLite::Statement insert(db,
                             "INSERT INTO journal (sequence, at, by, name, what, changes, "
                             "previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
    insert.bind(1, static_cast<std::int64_t>(entry.sequence));
    insert.bind(2, entry.at);
    insert.bind(3, entry.by.text);
    insert.bind(4, entry.name);
    insert.bind(5, entry.what);
    insert.bind(6, entry.changes);
    insert.bind(7, entry.previous);
    insert.bind(8, hashOf(entry));
    insert.exec();
    return entry.sequence;
}

void forEachEntry(SQLite::Database& db, bool newestFirst,
                  const std::function<bool(const JournalEntry&)>& visit) {
    SQLite::Statement rows(
        db, std::string("SELECT sequence, at, by, name, what, changes, previous, hash "
                        "FROM journal ORDER BY sequence") +
                (newestFirst ? " DESC" : ""));
    while (rows.executeStep())
        if (!visit(entryFrom(rows))) return;
}

Result<std::vector<JournalChange>> changesOf(const JournalEntry& entry) {
    const auto damaged = [&] {
        return refuse(Code::Damaged, fmt::format("journal entry {}", entry.sequence),
                      "this entry of the journal cannot be read");
    };
    const auto json = exchange::parseJson(entry.changes);
    if (!json || !json->as<Json::Array>()) return damaged();
    std::vector<JournalChange> changes;
    for (const auto& item : *json->as<Json::Array>()) {
        const Json* table = item.find("table");
        if (!table || !table->as<std::string>()) return damaged();
        JournalChange change{*table->as<std::string>(), {}, {}};
        if (const Json* before = item.find("before"))
            change.before = printJson(*before, exchange::Layout::Compact);
        if (const Json* after = item.find("after"))
            change.after = printJson(*after, exchange::Layout::Compact);
        changes.push_back(std::move(change));
    }
    return changes;
}

std::optional<std::string> brokenLink(SQLite::Database& db) {
    std::optional<std::string> broken;
    std::uint64_t sequence = 0;
    std::string previous = noHash();
    forEachEntry(db, false, [&](const JournalEntry& entry) {
        ++sequence;
        if (entry.sequence != sequence)
            broken = fmt::format("entry {} is missing", sequence);
        else if (entry.previous != previous)
            broken = fmt::format("entry {} does not follow the one before it", sequence);
        else if (hashOf(entry) != entry.hash)
            broken = fmt::format("entry {} was altered after it was written", sequence);
        previous = entry.hash;
        return !broken;
    });
    return broken;
}

}  // namespace evidence::store

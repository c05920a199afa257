#include "evidence-core/store/replay.h"

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/exchange/record_json.h"
#include "evidence-core/quantity/time.h"
#include "evidence-core/store/formula_codes.h"
#include "evidence-core/store/journal.h"
#include "evidence-core/store/record_table.h"

#include <map>
#include <ranges>
#include <set>
#include <utility>

namespace evidence::store {

namespace {

using record::AnyRecord;

/// Table and id; the archive's own row has the id "".
using Key = std::pair<std::string, std::string>;

template <class Record>
std::string keyId(const Record& record) {
    if constexpr (std::is_same_v<Record, record::ArchiveInfo>)
        return {};
    else
        return record.id.text;
}

Result<AnyRecord> parsed(const std::string& table, const std::string& text) {
    const auto json = exchange::parseJson(text);
    if (!json) return tl::unexpected<Refusal>(json.error());
    return exchange::recordFromJson(table, *json);
}

Result<Key> keyOf(const JournalChange& change) {
    const auto record = parsed(change.table, change.after.empty() ? change.before : change.after);
    if (!record)
        return refuse(Code::Damaged, change.table + record.error().place,
                      "the journal holds a record that cannot be read: " + record.error().help);
    return Key{change.table, std::visit([](const auto& held) { return keyId(held); }, *record)};
}

/// Puts the earlier state of each record of `earlier` into `reg`; empty: it was not there.
std::optional<Refusal> takeBack(record::Register& reg, std::map<Key, std::string>& earlier) {
    std::optional<Refusal> refusal;
    record::forEachTable(reg, [&](std::string_view name, auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        const std::string tableName(name);
        const auto restore = [&](const std::string& json) -> std::optional<Record> {
            auto record = parsed(tableName, json);
            if (record) return std::get<Record>(std::move(*record));
            refusal = record.error();
            return std::nullopt;
        };
        std::vector<Record> then;
        for (auto& record : table) {
            const auto found = earlier.find({tableName, record.id.text});
            if (found == earlier.end()) {
                then.push_back(std::move(record));
                continue;
            }
            if (!found->second.empty())
                if (auto old = restore(found->second)) then.push_back(std::move(*old));
            earlier.erase(found);
        }
        // Records that were taken away since.
        for (const auto& [key, json] : earlier)
            if (key.first == name && !json.empty())
                if (auto old = restore(json)) then.push_back(std::move(*old));
        table = std::move(then);
    });
    return refusal;
}

}  // namespace

Result<record::Register> registerAt(SQLite::Database& db, std::string_view time) {
    const auto moment = quantity::parseInstant(time);
    if (!moment)
        return refuse(Code::BadDate, std::string(time),
                      "expected a time such as 2026-05-01T10:00:00Z");
    // Newest first, so that what is written last into the map is the oldest.
    std::map<Key, std::string> earlier;
    std::optional<Refusal> refusal;
    forEachEntry(db, true, [&](const JournalEntry& entry) {
        const auto at = quantity::parseInstant(entry.at);
        if (at && *at <= *moment) return false;
        const auto changes = changesOf(entry);
        if (!changes) {
            refusal = changes.error();
            return false;
        }
        for (const auto& change : *changes | std::views::reverse) {
            const auto key = keyOf(change);
            if (!key) {
                refusal = key.error();
                return false;
            }
            earlier[*key] = change.before;
        }
        return true;
    });
    if (refusal) return tl::unexpected<Refusal>(std::move(*refusal));

    auto reg = loadTables(db);
    if (!reg) return reg;
    const auto archive = earlier.find({"archive", ""});
    if (archive != earlier.end()) {
        reg->archive = {};
        if (!archive->second.empty()) {
            auto info = parsed("archive", archive->second);
            if (!info) return tl::unexpected<Refusal>(info.error());
            reg->archive = std::get<record::ArchiveInfo>(std::move(*info));
        }
    }
    refusal = takeBack(*reg, earlier);
    if (refusal) return tl::unexpected<Refusal>(std::move(*refusal));
    return withFormulasByCode(std::move(*reg));
}

std::optional<std::string> differenceFromReplay(SQLite::Database& db) {
    std::map<Key, std::string> replayed;
    std::optional<std::string> difference;
    forEachEntry(db, false, [&](const JournalEntry& entry) {
        const auto changes = changesOf(entry);
        if (!changes) {
            difference = changes.error().place + " cannot be read";
            return false;
        }
        for (const auto& change : *changes) {
            const auto key = keyOf(change);
            if (!key) {
                difference = key.error().help;
                return false;
            }
            if (change.after.empty())
                replayed.erase(*key);
            else
                replayed[*key] = change.after;
        }
        return true;
    });
    if (difference) return difference;

    const auto reg = loadTables(db);
    if (!reg) return reg.error().place + ": " + reg.error().help;
    const auto compare = [&](std::string_view table, const auto& record) {
        if (difference) return;
        const auto found = replayed.find({std::string(table), keyId(record)});
        const std::string name = std::string(table) + " " + keyId(record);
        const std::string json =
            printJson(exchange::toJson(AnyRecord(record)), exchange::Layout::Compact);
        if (found == replayed.end())
            difference = name + " is in the register but not in the journal";
        else if (found->second != json)
            difference = name + " is not what the journal says it is";
        if (found != replayed.end()) replayed.erase(found);
    };
    compare("archive", reg->archive);
    record::forEachTable(*reg, [&](std::string_view table, const auto& records) {
        for (const auto& record : records) compare(table, record);
    });
    if (!difference && !replayed.empty()) {
        const auto& [table, id] = replayed.begin()->first;
        difference = table + " " + id + " is in the journal but not in the register";
    }
    return difference;
}

}  // namespace evidence::store

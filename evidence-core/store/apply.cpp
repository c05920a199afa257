#include "evidence-core/store/apply.h"

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/exchange/record_json.h"
#include "evidence-core/record/kind.h"
#include "evidence-core/store/formula_codes.h"
#include "evidence-core/store/record_table.h"
#include "evidence-core/store/search_index.h"

#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <cassert>
#include <optional>
#include <set>
#include <type_traits>

namespace evidence::store {

namespace {

using record::AnyRecord;
using record::Change;

std::string compact(const AnyRecord& record) {
    return printJson(exchange::toJson(record), exchange::Layout::Compact);
}

std::string idOf(const AnyRecord& record) {
    return std::visit(
        []<class Record>(const Record& held) -> std::string {
            if constexpr (std::is_same_v<Record, record::ArchiveInfo>)
                return "archive";
            else
                return held.id.text;
        },
        record);
}

/// The ids a record brings into the archive, with their kinds: its own and those of its files.
std::vector<std::pair<std::string, record::Kind>> idsIn(const AnyRecord& record) {
    std::vector<std::pair<std::string, record::Kind>> ids;
    std::visit(
        [&]<class Record>(const Record& held) {
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>)
                ids.emplace_back(held.id.text, record::KindOf<Record>);
            if constexpr (std::is_same_v<Record, record::Source>)
                for (const auto& file : held.files)
                    ids.emplace_back(file.id.text, record::Kind::File);
        },
        record);
    return ids;
}

AnyRecord withFormulaById(SQLite::Database& db, AnyRecord record) {
    if (auto* relation = std::get_if<record::Relation>(&record))
        relation->formula = formulaByIdIn(db, relation->formula);
    return record;
}

/// One call of `applyChanges`.
class Application {
  public:
    Application(SQLite::Database& db, const Act& act)
        : m_db(db),
          m_act(act),
          m_sequence(lastSequence(db) + 1),
          m_findId(db, "SELECT number FROM record WHERE id = ?"),
          m_addId(db, "INSERT INTO record (id, kind, changed) VALUES (?, ?, ?)"),
          m_touchId(db, "UPDATE record SET changed = ? WHERE id = ?"),
          m_dropId(db, "DELETE FROM record WHERE id = ?") {}

    /// `beforeJson` is `change.before` as the tables hold it. Nothing where all went well.
    std::optional<Refusal> take(const Change& change, const std::string& beforeJson) {
        assert(change.before || change.after);
        const AnyRecord& model = change.after ? *change.after : *change.before;
        const std::optional<AnyRecord> after =
            change.after ? std::optional(withFormulaById(m_db, *change.after)) : std::nullopt;
        const std::string afterJson = after ? compact(*after) : std::string();
        if (!exchange::isPlainUtf8(afterJson))
            return Refusal{Code::BadValue, idOf(model), "this record holds text that is not UTF-8"};

        const auto held = loadRecord(m_db, model);
        if (!held) return held.error();
        const std::string heldJson = *held ? compact(**held) : std::string();
        if (heldJson != beforeJson) {
            if (!change.before) return taken(idOf(model));
            return stale(model, held->has_value());
        }
        const auto oldNumber = numberOf(idOf(model));
        if (auto refusal = keepIds(change.before, after)) return refusal;
        if (!after)
            deleteRecord(m_db, *change.before);
        else if (change.before)
            updateRecord(m_db, *after);
        else
            insertRecord(m_db, *after);
        if (oldNumber) removeFromIndex(m_db, *oldNumber);
        if (after) {
            if (const auto number = numberOf(idOf(*after))) addToIndex(m_db, *number, *after);
        }
        m_changes.push_back({std::string(exchange::tableOf(model)), beforeJson, afterJson});
        return std::nullopt;
    }

    std::uint64_t writeJournal(const std::string& what) {
        JournalEntry entry;
        entry.at = m_act.at;
        entry.by = m_act.by;
        entry.name = m_act.name;
        entry.what = what;
        const auto sequence = appendToJournal(m_db, std::move(entry), m_changes);
        assert(sequence == m_sequence);
        return sequence;
    }

  private:
    std::optional<std::int64_t> numberOf(const std::string& id) {
        m_findId.reset();
        m_findId.bind(1, id);
        if (!m_findId.executeStep()) return std::nullopt;
        return m_findId.getColumn(0).getInt64();
    }

    static Refusal taken(const std::string& id) {
        return {Code::DuplicateId, id, "this id is taken in the archive; give another one"};
    }

    Refusal stale(const AnyRecord& model, bool there) {
        const std::string id = idOf(model);
        std::string who;
        SQLite::Statement query(m_db,
                                "SELECT name, at, what FROM journal WHERE sequence = "
                                "(SELECT changed FROM record WHERE id = ?)");
        query.bind(1, id);
        if (query.executeStep())
            who = fmt::format(" by {} at {} ({})", query.getColumn(0).getString(),
                              query.getColumn(1).getString(), query.getColumn(2).getString());
        return {Code::Stale, id,
                (there ? "this record was changed meanwhile" : "this record is no longer there") +
                    who + "; look at it again and repeat the action"};
    }

    /// Keeps the list of ids: new ones must be free, dropped ones go, all are touched.
    std::optional<Refusal> keepIds(const std::optional<AnyRecord>& before,
                                   const std::optional<AnyRecord>& after) {
        using Ids = std::vector<std::pair<std::string, record::Kind>>;
        const Ids old = before ? idsIn(*before) : Ids{};
        const Ids now = after ? idsIn(*after) : Ids{};
        const std::set<std::string> oldIds = idSet(old);
        const std::set<std::string> nowIds = idSet(now);
        if (nowIds.size() != now.size()) return taken(now.front().first + " (files)");
        for (const auto& [id, kind] : old)
            if (!nowIds.contains(id)) run(m_dropId, id);
        for (const auto& [id, kind] : now) {
            if (oldIds.contains(id)) {
                run(m_touchId, static_cast<std::int64_t>(m_sequence), id);
                continue;
            }
            if (numberOf(id)) return taken(id);
            run(m_addId, id, std::string(record::nameOf(kind)),
                static_cast<std::int64_t>(m_sequence));
        }
        return std::nullopt;
    }

    static std::set<std::string> idSet(
        const std::vector<std::pair<std::string, record::Kind>>& ids) {
        std::set<std::string> set;
        for (const auto& [id, kind] : ids) set.insert(id);
        return set;
    }

    template <class... Values>
    static void run(SQLite::Statement& statement, const Values&... values) {
        statement.reset();
        int index = 0;
        (statement.bind(++index, values), ...);
        statement.exec();
    }

    SQLite::Database& m_db;
    const Act& m_act;
    std::uint64_t m_sequence;
    SQLite::Statement m_findId;
    SQLite::Statement m_addId;
    SQLite::Statement m_touchId;
    SQLite::Statement m_dropId;
    std::vector<JournalChange> m_changes;
};

bool isRelation(const Change& change) {
    return std::holds_alternative<record::Relation>(change.after ? *change.after : *change.before);
}

/// The first reference that would hang in the air.
std::optional<Refusal> missingTarget(SQLite::Database& db) {
    int unresolved = 0;
    int highest = 0;
    sqlite3_db_status(db.getHandle(), SQLITE_DBSTATUS_DEFERRED_FKS, &unresolved, &highest, 0);
    if (unresolved == 0) return std::nullopt;
    SQLite::Statement query(
        db, "SELECT \"table\", coalesce(rowid, 0), \"parent\" FROM pragma_foreign_key_check");
    query.executeStep();
    const std::string table = query.getColumn(0).getString();
    SQLite::Statement id(db, "SELECT id FROM \"" + table + "\" WHERE rowid = ?");
    id.bind(1, query.getColumn(1).getInt64());
    const std::string place = id.executeStep() ? id.getColumn(0).getString() : table;
    return Refusal{Code::MissingTarget, place,
                   fmt::format("this record of \"{}\" refers to one of \"{}\" that is not there",
                               table, query.getColumn(2).getString())};
}

}  // namespace

Result<std::uint64_t> applyChanges(SQLite::Database& db, const record::ChangeSet& set,
                                   const Act& act) {
    Application application(db, act);
    // Relations last: the codes in their formulas may be those of dimensions made by the same set.
    // What was there before is read with the codes from before.
    std::vector<std::string> befores;
    for (const auto& change : set.changes)
        befores.push_back(change.before ? compact(withFormulaById(db, *change.before))
                                        : std::string());
    for (const bool relations : {false, true}) {
        for (std::size_t i = 0; i < set.changes.size(); ++i) {
            if (isRelation(set.changes[i]) != relations) continue;
            if (auto refusal = application.take(set.changes[i], befores[i]))
                return tl::unexpected<Refusal>(std::move(*refusal));
        }
    }
    const auto sequence = application.writeJournal(set.what);
    if (auto refusal = missingTarget(db)) return tl::unexpected<Refusal>(std::move(*refusal));
    return sequence;
}

}  // namespace evidence::store

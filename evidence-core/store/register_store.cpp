#include "evidence-core/store/register_store.h"

#include "evidence-core/store/apply.h"
#include "evidence-core/store/connection.h"
#include "evidence-core/store/formula_codes.h"
#include "evidence-core/store/record_table.h"
#include "evidence-core/store/replay.h"
#include "evidence-core/store/search_index.h"

#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <sqlite3.h>

namespace evidence::store {

namespace {

namespace fs = std::filesystem;

constexpr const char* kRegisterFile = "register.sqlite";

/// Runs `work`, turning a broken file into a refusal; other failures stay exceptions.
template <class Work>
auto tellingDamage(const fs::path& folder, Work&& work) -> decltype(work()) {
    try {
        return work();
    } catch (const SQLite::Exception& e) {
        if (e.getErrorCode() != SQLITE_CORRUPT && e.getErrorCode() != SQLITE_NOTADB) throw;
        return refuse(Code::Damaged, (folder / kRegisterFile).string(),
                      std::string("the register is damaged: ") + e.what());
    }
}

}  // namespace

struct RegisterStore::Connection {
    std::unique_ptr<SQLite::Database> db;
};

RegisterStore::RegisterStore(fs::path folder, std::unique_ptr<Connection> connection)
    : m_folder(std::move(folder)), m_connection(std::move(connection)) {}

RegisterStore::~RegisterStore() = default;

const fs::path& RegisterStore::folder() const {
    return m_folder;
}

Result<std::unique_ptr<RegisterStore>> RegisterStore::create(const fs::path& folder,
                                                             const record::ArchiveInfo& info,
                                                             const Act& act) {
    if (fs::exists(folder) && !(fs::is_directory(folder) && fs::is_empty(folder)))
        return refuse(Code::WrongUse, folder.string(),
                      "something is there already; give a folder that is new or empty");
    fs::create_directories(folder / "originals");
    fs::create_directories(folder / "derived");
    auto connection = std::make_unique<Connection>();
    connection->db = createDatabase(folder / kRegisterFile);
    std::unique_ptr<RegisterStore> store(new RegisterStore(folder, std::move(connection)));
    const auto made = store->apply({"new archive", {{std::nullopt, info}}}, act);
    if (!made) return tl::unexpected<Refusal>(made.error());
    return store;
}

Result<std::unique_ptr<RegisterStore>> RegisterStore::open(const fs::path& folder) {
    if (!fs::is_regular_file(folder / kRegisterFile))
        return refuse(Code::NotAnArchive, folder.string(),
                      "there is no archive here; give the folder made by `lostlines new`");
    auto db = openDatabase(folder / kRegisterFile);
    if (!db) return tl::unexpected<Refusal>(db.error());
    auto connection = std::make_unique<Connection>();
    connection->db = std::move(*db);
    return std::unique_ptr<RegisterStore>(new RegisterStore(folder, std::move(connection)));
}

Result<Loaded> RegisterStore::load() {
    return tellingDamage(m_folder, [&]() -> Result<Loaded> {
        auto& db = *m_connection->db;
        // One read transaction: the number and the records belong together.
        const SQLite::Transaction reading(db);
        Loaded loaded{store::lastSequence(db), {}};
        auto reg = loadTables(db);
        if (!reg) return tl::unexpected<Refusal>(reg.error());
        loaded.reg = withFormulasByCode(std::move(*reg));
        return loaded;
    });
}

Result<std::uint64_t> RegisterStore::apply(const record::ChangeSet& set, const Act& act) {
    return tellingDamage(m_folder, [&]() -> Result<std::uint64_t> {
        auto& db = *m_connection->db;
        if (set.changes.empty()) return store::lastSequence(db);
        SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
        const auto sequence = applyChanges(db, set, act);
        if (!sequence) return sequence;
        transaction.commit();
        return sequence;
    });
}

std::uint64_t RegisterStore::lastSequence() {
    return store::lastSequence(*m_connection->db);
}

std::vector<JournalEntry> RegisterStore::journal(std::uint64_t after) {
    std::vector<JournalEntry> entries;
    forEachEntry(*m_connection->db, false, [&](const JournalEntry& entry) {
        if (entry.sequence > after) entries.push_back(entry);
        return true;
    });
    return entries;
}

Result<record::Register> RegisterStore::atMoment(std::string_view time) {
    return tellingDamage(m_folder, [&] {
        const SQLite::Transaction reading(*m_connection->db);
        return registerAt(*m_connection->db, time);
    });
}

std::optional<std::string> RegisterStore::verifyChain() {
    const SQLite::Transaction reading(*m_connection->db);
    auto broken = brokenLink(*m_connection->db);
    return broken ? broken : differenceFromReplay(*m_connection->db);
}

std::optional<std::string> RegisterStore::verifyDatabase() {
    const std::string check = m_connection->db->execAndGet("PRAGMA integrity_check(1)").getString();
    return check == "ok" ? std::nullopt : std::optional(check);
}

std::vector<RegisterStore::Hit> RegisterStore::search(std::string_view words, int most) {
    return searchIndex(*m_connection->db, words, most);
}

}  // namespace evidence::store

#include "evidence-core/store/connection.h"

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/store/migrations.h"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <fstream>
#include <string>
#include <vector>

namespace evidence::store {

namespace {

namespace fs = std::filesystem;

constexpr int kBusyMilliseconds = 5000;
/// Larger registers are checked page by page by `verify`, not at every opening.
constexpr std::uintmax_t kCheckedAtOpening = std::uintmax_t{64} * 1024 * 1024;

int newestVersion() {
    return static_cast<int>(migrations().size());
}

/// SQLite 3.40 does not count its own json_valid among the functions an untrusted schema may call,
/// and our CHECKs call it. This one is ours, so it may.
void jsonValid(sqlite3_context* context, int, sqlite3_value** values) {
    const auto* text = static_cast<const char*>(sqlite3_value_blob(values[0]));
    if (!text) {
        sqlite3_result_null(context);
        return;
    }
    const std::string_view json(text, static_cast<std::size_t>(sqlite3_value_bytes(values[0])));
    sqlite3_result_int(context, exchange::parseJson(json) ? 1 : 0);
}

/// What every connection needs, whatever is in the file: nothing in the schema may run code, and
/// broken pages are told rather than guessed at.
void harden(SQLite::Database& db) {
    sqlite3* handle = db.getHandle();
    int state = 0;
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, &state);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, &state);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, &state);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, &state);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, &state);
    sqlite3_create_function_v2(handle, "json_valid", 1,
                               SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS, nullptr,
                               jsonValid, nullptr, nullptr, nullptr);
    db.setBusyTimeout(kBusyMilliseconds);
    db.exec("PRAGMA cell_size_check = ON");
    db.exec("PRAGMA foreign_keys = ON");
    db.exec("PRAGMA synchronous = FULL");
    db.exec("PRAGMA cache_size = -65536");
}

void migrate(SQLite::Database& db, int from) {
    for (int version = from; version < newestVersion(); ++version) {
        SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
        // Another program may have brought it up to date while we waited for the lock.
        if (db.execAndGet("PRAGMA user_version").getInt() > version) continue;
        db.exec(std::string(migrations()[static_cast<std::size_t>(version)]));
        db.exec(fmt::format("PRAGMA user_version = {}", version + 1));
        transaction.commit();
    }
}

std::string fingerprint(SQLite::Database& db) {
    std::string text;
    SQLite::Statement query(db,
                            "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema "
                            "WHERE name NOT LIKE 'sqlite\\_stat%' ESCAPE '\\' ORDER BY type, name");
    while (query.executeStep())
        for (int column = 0; column < 4; ++column)
            text += query.getColumn(column).getString() + '\n';
    return text;
}

std::string expectedFingerprint(int version) {
    SQLite::Database db(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    for (int i = 0; i < version; ++i)
        db.exec(std::string(migrations()[static_cast<std::size_t>(i)]));
    return fingerprint(db);
}

std::uint32_t bigEndian(const std::array<char, 100>& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
        value = (value << 8U) | static_cast<unsigned char>(bytes[at + i]);
    return value;
}

tl::unexpected<Refusal> newer(const fs::path& file) {
    return refuse(Code::NewerArchive, file.string(),
                  "this archive was written by a newer program; update Lostlines to open it");
}
tl::unexpected<Refusal> damaged(const fs::path& file, const std::string& what) {
    return refuse(Code::Damaged, file.string(),
                  "the register is damaged (" + what +
                      "); nothing was changed: work on from a copy or a bag");
}

/// The version by the file's own header (SQLite file format, 1.3), so that a foreign or newer file
/// is refused before SQLite makes as much as a lock file beside it.
Result<int> versionByHeader(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::array<char, 100> header{};
    in.read(header.data(), header.size());
    constexpr std::string_view kMagic("SQLite format 3\0", 16);
    constexpr std::size_t kUserVersionAt = 60;
    constexpr std::size_t kApplicationIdAt = 68;
    if (!in || std::string_view(header.data(), kMagic.size()) != kMagic ||
        bigEndian(header, kApplicationIdAt) != static_cast<std::uint32_t>(kApplicationId))
        return refuse(Code::NotAnArchive, file.string(),
                      "this is no Lostlines archive; give the folder made by `lostlines new`");
    const auto version = bigEndian(header, kUserVersionAt);
    if (version > static_cast<std::uint32_t>(newestVersion())) return newer(file);
    return static_cast<int>(version);
}

}  // namespace

std::unique_ptr<SQLite::Database> createDatabase(const fs::path& file) {
    auto db = std::make_unique<SQLite::Database>(file.string(),
                                                 SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    harden(*db);
    // Set before WAL: the header itself then tells whose file this is.
    db->exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    migrate(*db, 0);
    db->exec("PRAGMA journal_mode = WAL");
    return db;
}

Result<std::unique_ptr<SQLite::Database>> openDatabase(const fs::path& file) {
    const auto byHeader = versionByHeader(file);
    if (!byHeader) return tl::unexpected<Refusal>(byHeader.error());
    try {
        auto db = std::make_unique<SQLite::Database>(file.string(), SQLite::OPEN_READWRITE);
        harden(*db);
        const int version = db->execAndGet("PRAGMA user_version").getInt();
        if (version > newestVersion()) return newer(file);
        if (version < 1 || fingerprint(*db) != expectedFingerprint(version))
            return refuse(Code::NotAnArchive, file.string(),
                          "the tables in this file are not those of a Lostlines archive");
        if (fs::file_size(file) <= kCheckedAtOpening) {
            const std::string check = db->execAndGet("PRAGMA quick_check(1)").getString();
            if (check != "ok") return damaged(file, check);
        }
        if (version < newestVersion()) {
            db->backup(fmt::format("{}.v{}", file.string(), version).c_str(),
                       SQLite::Database::Save);
            migrate(*db, version);
            db->exec("PRAGMA wal_checkpoint(TRUNCATE)");
        }
        db->exec("PRAGMA journal_mode = WAL");
        return db;
    } catch (const SQLite::Exception& e) {
        if (e.getErrorCode() == SQLITE_CORRUPT || e.getErrorCode() == SQLITE_NOTADB)
            return damaged(file, e.what());
        throw;
    }
}

}  // namespace evidence::store

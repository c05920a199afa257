// The SQL of the tables says every key of every record, and holds what they can hold.
#include "evidence-core/store/register_store.h"
#include "tests/evidence-core/support/random_register.h"
#include "tests/support/scratch_folder.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gtest/gtest.h>

namespace {

using namespace evidence;
using store::RegisterStore;

const store::Act kAnna{{"p1"}, "Anna", "2026-01-02T03:04:05Z"};

std::vector<std::string> columnsOf(SQLite::Database& db, std::string_view table) {
    SQLite::Statement query(db, "SELECT name FROM pragma_table_info(?) ORDER BY cid");
    query.bind(1, std::string(table));
    std::vector<std::string> columns;
    while (query.executeStep()) columns.push_back(query.getColumn(0).getString());
    return columns;
}

template <class Record>
std::vector<std::string> keysOf() {
    std::vector<std::string> keys{"position"};
    const Record record;
    record::forEachField(record,
                         [&](std::string_view key, const auto&) { keys.emplace_back(key); });
    return keys;
}

TEST(Schema, EveryKeyHasItsColumnInTheOrderOfTheDocument) {
    const test::ScratchFolder folder;
    ASSERT_TRUE(RegisterStore::create(folder / "a", {}, kAnna));
    SQLite::Database db((folder / "a" / "register.sqlite").string());
    EXPECT_EQ(columnsOf(db, "archive"), keysOf<record::ArchiveInfo>());
    const record::Register model;
    record::forEachTable(model, [&](std::string_view name, const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        EXPECT_EQ(columnsOf(db, name), keysOf<Record>()) << name;
    });
}

TEST(Schema, HoldsEveryValueOfEveryKey) {
    EXPECT_TRUE(rc::check([] {
        const auto reg = test::drawRegister();
        record::ChangeSet set{"all of it", {{record::ArchiveInfo{}, reg.archive}}};
        record::forEachTable(reg, [&](std::string_view, const auto& table) {
            for (const auto& record : table) set.changes.push_back({std::nullopt, record});
        });
        const test::ScratchFolder folder;
        auto made = RegisterStore::create(folder / "a", {}, kAnna);
        RC_ASSERT(made.has_value());
        const auto done = (*made)->apply(set, kAnna);
        RC_ASSERT(done.has_value());
        const auto loaded = (*made)->load();
        RC_ASSERT(loaded.has_value());
        RC_ASSERT(loaded->reg == reg);
        RC_ASSERT((*made)->verifyChain() == std::nullopt);

        // Backwards to nothing, by journal and by replay.
        RC_ASSERT((*made)->apply(record::inverse(set), kAnna).has_value());
        RC_ASSERT((*made)->load()->reg == record::Register{});
        RC_ASSERT((*made)->verifyChain() == std::nullopt);
    }));
}

}  // namespace

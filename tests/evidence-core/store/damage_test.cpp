// Foreign, newer, damaged and tampered archives; programs that die in the middle.
#include "evidence-core/store/register_store.h"
#include "tests/support/scratch_folder.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <thread>

namespace {

using namespace evidence;
using store::RegisterStore;
namespace fs = std::filesystem;

const store::Act kAnna{{"p1"}, "Anna", "2026-01-02T03:04:05Z"};

record::Dimension dimension(int number) {
    record::Dimension d;
    d.id = {fmt::format("d{}", number)};
    d.code = fmt::format("D{}", number);
    d.name = "a dimension with a name that fills a little of a page " + std::string(200, 'x');
    return d;
}

record::ChangeSet add(int from, int to) {
    record::ChangeSet set{"add", {}};
    for (int i = from; i < to; ++i) set.changes.push_back({std::nullopt, dimension(i)});
    return set;
}

class Damage : public testing::Test {
  protected:
    void SetUp() override {
        auto made = RegisterStore::create(archive(), {}, kAnna);
        ASSERT_TRUE(made);
        ASSERT_TRUE((*made)->apply(add(0, 100), kAnna));
    }
    [[nodiscard]] fs::path archive() const { return m_folder / "a"; }
    [[nodiscard]] fs::path file() const { return archive() / "register.sqlite"; }

    void expectRefused(Code code) {
        const std::string before = test::readText(file());
        const auto opened = RegisterStore::open(archive());
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().code, code) << opened.error().help;
        EXPECT_EQ(test::readText(file()), before) << "the bytes were touched";
    }
    void poke(std::size_t at, const std::string& bytes) {
        std::fstream out(file(), std::ios::in | std::ios::out | std::ios::binary);
        out.seekp(static_cast<std::streamoff>(at));
        out << bytes;
    }
    void sql(const std::string& text) {
        SQLite::Database db(file().string(), SQLite::OPEN_READWRITE);
        db.exec(text);
        db.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    }
    std::optional<std::string> broken() {
        auto opened = RegisterStore::open(archive());
        EXPECT_TRUE(opened) << opened.error().help;
        return (*opened)->verifyChain();
    }

    test::ScratchFolder m_folder;
};

TEST_F(Damage, NewerArchiveIsRefusedWithoutTouchingAByte) {
    sql("PRAGMA user_version = 9");
    expectRefused(Code::NewerArchive);
    EXPECT_FALSE(fs::exists(file().string() + "-wal"));
    EXPECT_FALSE(fs::exists(file().string() + "-shm"));
}

TEST_F(Damage, NoFolderAndNoRegisterAreNoArchive) {
    EXPECT_EQ(RegisterStore::open(m_folder / "nothing").error().code, Code::NotAnArchive);
    fs::create_directories(m_folder / "empty");
    EXPECT_EQ(RegisterStore::open(m_folder / "empty").error().code, Code::NotAnArchive);
    EXPECT_TRUE(fs::is_empty(m_folder / "empty"));
}

TEST_F(Damage, OtherProgramsDatabaseIsNoArchive) {
    sql("PRAGMA application_id = 1");
    expectRefused(Code::NotAnArchive);
}

TEST_F(Damage, TextFileIsNoArchive) {
    fs::remove(file());
    test::writeText(file(), "not a database");
    expectRefused(Code::NotAnArchive);
}

// tests/…/data/52_hostile_schema.sqlite: a view that calls load_extension, a deleting trigger.
TEST_F(Damage, HostileSchemaIsRefusedAndItsTriggersDoNotRun) {
    fs::remove(file());
    fs::copy_file(std::string(LOSTLINES_TEST_DATA) + "/52_hostile_schema.sqlite", file());
    fs::permissions(file(), fs::perms::owner_all);
    expectRefused(Code::NotAnArchive);
    SQLite::Database db(file().string(), SQLite::OPEN_READONLY);
    EXPECT_EQ(db.execAndGet("SELECT count(*) FROM source_real").getInt(), 1);
}

TEST_F(Damage, ArchiveWithAStrangersTriggerIsRefused) {
    sql("CREATE TRIGGER evil AFTER INSERT ON journal BEGIN DELETE FROM people; END");
    expectRefused(Code::NotAnArchive);
}

TEST_F(Damage, ArchiveWithAViewInPlaceOfATableIsRefused) {
    sql("DROP TABLE issued; CREATE VIEW issued AS SELECT 1 AS position");
    expectRefused(Code::NotAnArchive);
}

// tests/…/data/53_corrupt_page.sqlite: a page overwritten; not one of ours either.
TEST_F(Damage, ForeignFileWithACorruptPageIsRefusedWithoutACrash) {
    fs::remove(file());
    fs::copy_file(std::string(LOSTLINES_TEST_DATA) + "/53_corrupt_page.sqlite", file());
    fs::permissions(file(), fs::perms::owner_all);
    expectRefused(Code::NotAnArchive);
}

TEST_F(Damage, OverwrittenPageOfOursIsToldAsDamage) {
    const auto size = fs::file_size(file());
    constexpr std::size_t kPage = 4096;
    ASSERT_GT(size, 40 * kPage);
    poke((size / kPage - 3) * kPage, std::string(kPage, '\xA5'));
    expectRefused(Code::Damaged);
}

TEST_F(Damage, FileCutShortIsToldAsDamage) {
    fs::resize_file(file(), fs::file_size(file()) / 2);
    expectRefused(Code::Damaged);
}

TEST_F(Damage, ValueChangedBehindTheJournalIsFound) {
    sql("UPDATE dimensions SET name = 'forged' WHERE id = 'd7'");
    const auto found = broken();
    ASSERT_TRUE(found);
    EXPECT_NE(found->find("d7"), std::string::npos) << *found;
}

TEST_F(Damage, RecordAddedOrRemovedBehindTheJournalIsFound) {
    sql("PRAGMA foreign_keys = OFF; DELETE FROM dimensions WHERE id = 'd8'");
    EXPECT_NE(broken()->find("d8"), std::string::npos);
}

TEST_F(Damage, JournalIsAppendOnlyInTheDatabaseItself) {
    EXPECT_THROW(sql("UPDATE journal SET name = 'Bert'"), std::exception);
    EXPECT_THROW(sql("DELETE FROM journal"), std::exception);
}

TEST_F(Damage, JournalEntryAlteredDespiteItsGuardIsFound) {
    sql("DROP TRIGGER journal_keeps_words; UPDATE journal SET name = 'Bert' WHERE sequence = 2;"
        "CREATE TRIGGER journal_keeps_words BEFORE UPDATE ON journal BEGIN\n"
        "    SELECT RAISE(ABORT, 'the journal is append-only');\nEND");
    const auto found = broken();
    ASSERT_TRUE(found);
    EXPECT_NE(found->find("entry 2"), std::string::npos) << *found;
}

TEST_F(Damage, JournalEntryTakenAwayDespiteItsGuardIsFound) {
    sql("DROP TRIGGER journal_keeps_entries; PRAGMA foreign_keys = OFF;"
        "DELETE FROM journal WHERE sequence = 1;"
        "CREATE TRIGGER journal_keeps_entries BEFORE DELETE ON journal BEGIN\n"
        "    SELECT RAISE(ABORT, 'the journal is append-only');\nEND");
    EXPECT_NE(broken()->find("entry 1 is missing"), std::string::npos);
}

TEST_F(Damage, LastJournalEntryTakenAwayIsFound) {
    sql("DROP TRIGGER journal_keeps_entries; PRAGMA foreign_keys = OFF;"
        "DELETE FROM journal WHERE sequence = 2;"
        "CREATE TRIGGER journal_keeps_entries BEFORE DELETE ON journal BEGIN\n"
        "    SELECT RAISE(ABORT, 'the journal is append-only');\nEND");
    EXPECT_NE(broken()->find("not in the journal"), std::string::npos);
}

/// The register and its WAL as they lie on the disk while another program is writing.
TEST_F(Damage, CopyTakenInTheMiddleOfATransactionHoldsWholeTransactionsOnly) {
    auto opened = RegisterStore::open(archive());
    ASSERT_TRUE(opened);
    SQLite::Database writer(file().string(), SQLite::OPEN_READWRITE);
    writer.exec("PRAGMA cache_size = 5; PRAGMA foreign_keys = OFF; BEGIN IMMEDIATE");
    for (int i = 0; i < 2000; ++i)
        writer.exec(
            fmt::format("INSERT INTO dimensions (id, name, quantity) VALUES "
                        "('half{}', '{}', 'length')",
                        i, std::string(400, 'y')));
    const fs::path copy = m_folder / "copy";
    fs::create_directories(copy);
    for (const auto& entry : fs::directory_iterator(archive()))
        if (entry.is_regular_file() && entry.path().extension() != ".sqlite-shm")
            fs::copy_file(entry.path(), copy / entry.path().filename());
    writer.exec("ROLLBACK");

    auto again = RegisterStore::open(copy);
    ASSERT_TRUE(again) << again.error().help;
    EXPECT_EQ((*again)->load()->reg.dimensions.size(), 100U);
    EXPECT_EQ((*again)->verifyChain(), std::nullopt);
    EXPECT_EQ((*again)->verifyDatabase(), std::nullopt);
}

TEST_F(Damage, KilledAtAnyMomentKeepsEveryActionThatWasAnswered) {
    for (int round = 0; round < 20; ++round) {
        const fs::path folder = m_folder / fmt::format("kill{}", round);
        ASSERT_TRUE(RegisterStore::create(folder, {}, kAnna));
        int answers[2];
        ASSERT_EQ(::pipe(answers), 0);
        const pid_t child = ::fork();
        if (child == 0) {
            auto mine = RegisterStore::open(folder);
            for (int i = 0; mine; ++i) {
                if (!(*mine)->apply(add(10 * i, 10 * i + 10), kAnna)) ::_exit(1);
                if (::write(answers[1], "x", 1) != 1) ::_exit(1);
            }
            ::_exit(1);
        }
        ::close(answers[1]);
        std::this_thread::sleep_for(std::chrono::milliseconds(5 + 7 * round));
        ::kill(child, SIGKILL);
        int status = 0;
        ::waitpid(child, &status, 0);
        ASSERT_TRUE(WIFSIGNALED(status));
        std::size_t answered = 0;
        char byte = 0;
        while (::read(answers[0], &byte, 1) == 1) ++answered;
        ::close(answers[0]);

        auto again = RegisterStore::open(folder);
        ASSERT_TRUE(again) << again.error().help;
        const auto held = (*again)->load()->reg.dimensions.size();
        EXPECT_EQ(held % 10, 0U) << "half an action";
        EXPECT_GE(held, 10 * answered);
        EXPECT_EQ((*again)->verifyChain(), std::nullopt);
    }
}

TEST_F(Damage, TwoProgramsWriteSideBySideAndNoneIsLost) {
    const auto write = [&](int from) {
        auto mine = RegisterStore::open(archive());
        ASSERT_TRUE(mine);
        for (int i = from; i < from + 50; ++i) ASSERT_TRUE((*mine)->apply(add(i, i + 1), kAnna));
    };
    std::thread first(write, 1000);
    std::thread second(write, 2000);
    first.join();
    second.join();
    auto opened = RegisterStore::open(archive());
    EXPECT_EQ((*opened)->load()->reg.dimensions.size(), 200U);
    EXPECT_EQ((*opened)->lastSequence(), 102U);
    EXPECT_EQ((*opened)->verifyChain(), std::nullopt);
}

}  // namespace

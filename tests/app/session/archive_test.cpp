#include "app/session/archive.h"

#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;
using app::session::Actor;
using app::session::Archive;

Actor actor(const std::string& name, const std::string& at = "2026-01-02T03:04:05Z") {
    return {name, [at] { return at; }};
}

std::unique_ptr<Archive> opened(const std::filesystem::path& folder, const std::string& name) {
    auto archive = Archive::open(folder, actor(name));
    EXPECT_TRUE(archive) << archive.error().help;
    return std::move(*archive);
}

record::Dimension dimension(const std::string& id) {
    record::Dimension d;
    d.id = {id};
    d.code = "D" + id;
    d.name = "roof hoop";
    return d;
}

record::Ruling rulingOn(const std::string& dimension, const record::PersonId& by) {
    record::Ruling ruling;
    ruling.id = {"k" + dimension};
    ruling.on = {dimension};
    ruling.value = std::string("3 in");
    ruling.reason = "as drawn";
    ruling.by = by;
    ruling.at = "2026-01-02T03:04:05Z";
    return ruling;
}

class SessionArchive : public testing::Test {
  protected:
    void SetUp() override {
        auto made = Archive::create(m_folder / "a", "Test", actor("Anna"));
        ASSERT_TRUE(made) << made.error().help;
        m_archive = std::move(*made);
    }
    test::ScratchFolder m_folder;
    std::unique_ptr<Archive> m_archive;
};

TEST_F(SessionArchive, NewArchiveHasItsTitleAndNobodyInIt) {
    EXPECT_EQ(m_archive->snapshot()->reg.archive.title, "Test");
    EXPECT_TRUE(m_archive->snapshot()->reg.people.empty());
    EXPECT_EQ(m_archive->snapshot()->version, 1U);
}

TEST_F(SessionArchive, FirstRecordThatNamesTheActingPersonMakesThatPerson) {
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, dimension("1")}}}));
    EXPECT_TRUE(m_archive->snapshot()->reg.people.empty());
    const auto anna = m_archive->actingPerson();
    ASSERT_TRUE(m_archive->perform({"rule", {{std::nullopt, rulingOn("1", anna)}}}));
    ASSERT_EQ(m_archive->snapshot()->reg.people.size(), 1U);
    EXPECT_EQ(m_archive->snapshot()->reg.people[0].name, "Anna");
    EXPECT_EQ(m_archive->actingPerson(), anna);
    EXPECT_EQ(opened(m_folder / "a", "Anna")->actingPerson(), anna);
}

TEST_F(SessionArchive, SnapshotAfterEachActionIsWhatReopeningGives) {
    record::Reading reading;
    reading.id = {"r1"};
    reading.of = {"1"};
    reading.value = record::Number{2.5, ""};
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, dimension("1")}}}));
    ASSERT_TRUE(m_archive->perform({"read", {{std::nullopt, reading}}}));
    EXPECT_EQ(opened(m_folder / "a", "Bert")->snapshot()->reg, m_archive->snapshot()->reg);
}

TEST_F(SessionArchive, SnapshotsInHandDoNotChange) {
    const auto before = m_archive->snapshot();
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, dimension("1")}}}));
    EXPECT_TRUE(before->reg.dimensions.empty());
    EXPECT_EQ(m_archive->snapshot()->reg.dimensions.size(), 1U);
}

TEST_F(SessionArchive, TakingBackKeepsThePersonAndAppendsToTheJournal) {
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, dimension("1")}}}));
    const auto done =
        m_archive->perform({"rule", {{std::nullopt, rulingOn("1", m_archive->actingPerson())}}});
    ASSERT_TRUE(done);
    const auto back = m_archive->takeBack(done->done);
    ASSERT_TRUE(back) << back.error().help;
    EXPECT_TRUE(m_archive->snapshot()->reg.rulings.empty());
    EXPECT_EQ(m_archive->snapshot()->reg.people.size(), 1U);
    EXPECT_EQ(m_archive->snapshot()->version, 4U);
}

TEST_F(SessionArchive, OtherProgramsCommitIsNoticedAndUndoOverItIsRefused) {
    const auto added = m_archive->perform({"add", {{std::nullopt, dimension("1")}}});
    ASSERT_TRUE(added);
    EXPECT_FALSE(m_archive->reloadIfChanged());
    const auto other = opened(m_folder / "a", "Bert");
    auto renamed = dimension("1");
    renamed.name = "Bert's";
    ASSERT_TRUE(other->perform({"rename", {{dimension("1"), renamed}}}));
    EXPECT_TRUE(m_archive->reloadIfChanged());
    EXPECT_EQ(m_archive->snapshot()->reg.dimensions[0].name, "Bert's");
    const auto undone = m_archive->takeBack(added->done);
    ASSERT_FALSE(undone);
    EXPECT_EQ(undone.error().code, Code::Stale);
    EXPECT_NE(undone.error().help.find("Bert"), std::string::npos);
}

TEST_F(SessionArchive, RecodingADimensionReprintsTheRelations) {
    record::Relation relation;
    relation.id = {"l1"};
    relation.formula = "D1 = 2 in";
    ASSERT_TRUE(
        m_archive->perform({"add", {{std::nullopt, dimension("1")}, {std::nullopt, relation}}}));
    auto recoded = dimension("1");
    recoded.code = "D7";
    ASSERT_TRUE(m_archive->perform({"recode", {{dimension("1"), recoded}}}));
    EXPECT_EQ(m_archive->snapshot()->reg.relations[0].formula, "D7 = 2 in");
}

TEST_F(SessionArchive, FileWithoutItsBytesIsMissingAndAlteredBytesAreFoundByVerify) {
    record::Source source;
    source.id = {"s1"};
    source.files.resize(1);
    source.files[0].id = {"f1"};
    source.files[0].path = "x.txt";
    // SHA-256 of "abc": FIPS 180-2, appendix B.1.
    source.files[0].sha256 = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, source}}}));
    ASSERT_EQ(m_archive->snapshot()->surroundings.missingFiles.size(), 1U);
    EXPECT_TRUE(m_archive->originalOf(source.files[0]).empty());

    const auto bytes = m_folder / "a" / "originals" / (*source.files[0].sha256 + ".txt");
    test::writeText(bytes, "abc");
    const auto again = opened(m_folder / "a", "Anna");
    EXPECT_TRUE(again->snapshot()->surroundings.missingFiles.empty());
    again->verify();
    EXPECT_TRUE(again->snapshot()->surroundings.alteredFiles.empty());
    EXPECT_EQ(again->snapshot()->surroundings.brokenJournal, std::nullopt);
    EXPECT_EQ(again->originalOf(source.files[0]), bytes);
    test::writeText(bytes, "abd");
    again->verify();
    EXPECT_EQ(again->snapshot()->surroundings.alteredFiles.size(), 1U);
}

TEST_F(SessionArchive, PastMomentIsReplayed) {
    ASSERT_TRUE(m_archive->perform({"add", {{std::nullopt, dimension("1")}}}));
    const auto past = m_archive->snapshotAt("2025-01-01T00:00:00Z");
    ASSERT_TRUE(past);
    EXPECT_TRUE((*past)->reg.dimensions.empty());
    EXPECT_EQ(m_archive->snapshotAt("yesterday").error().code, Code::BadDate);
}

}  // namespace

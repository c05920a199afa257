#include "app/session/import_document.h"

#include "evidence-core/exchange/write_document.h"
#include "evidence-core/judgement/analyse.h"
#include "evidence-core/store/register_store.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;
using app::session::Archive;
using app::session::importDocument;
using exchange::writeDocument;

// SHA-256 of "abc": FIPS 180-2, appendix B.1.
const std::string kAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
const std::string kExample = std::string(LOSTLINES_SOURCE) + "/docs/examples/document.json";

class ImportDocument : public testing::Test {
  protected:
    void SetUp() override { m_archive = newArchive("a"); }

    std::unique_ptr<Archive> newArchive(const std::string& name) {
        auto made = Archive::create(m_folder / name, "Test",
                                    {"Anna", [] { return std::string("2026-01-02T03:04:05Z"); }});
        EXPECT_TRUE(made) << made.error().help;
        return std::move(*made);
    }
    std::filesystem::path document(const std::string& files) {
        return test::writeText(m_folder / "document.json",
                               R"({"format": "lostlines-exchange", "version": 1, "sources": [
                {"id": "s1", "title": "x", "kind": "text", "files": [)" +
                                   files + "]}]}");
    }
    void expectRefused(const std::filesystem::path& file, Code code, const std::string& place) {
        const auto before = m_archive->snapshot()->reg;
        const auto done = importDocument(*m_archive, file);
        ASSERT_FALSE(done);
        EXPECT_EQ(done.error().code, code) << done.error().help;
        EXPECT_EQ(done.error().place, place) << done.error().help;
        EXPECT_EQ(m_archive->snapshot()->reg, before);
        EXPECT_EQ(m_archive->store().lastSequence(), 1U);
        EXPECT_TRUE(std::filesystem::is_empty(m_folder / "a" / "originals"));
    }

    test::ScratchFolder m_folder;
    std::unique_ptr<Archive> m_archive;
};

TEST_F(ImportDocument, SecondExportIsTheSameBytesAndTheSameRegister) {
    const auto done = importDocument(*m_archive, kExample);
    ASSERT_TRUE(done) << done.error().place << ": " << done.error().help;
    const std::string first = writeDocument(m_archive->snapshot()->reg);
    const auto other = newArchive("b");
    const auto again = importDocument(*other, test::writeText(m_folder / "first.json", first));
    ASSERT_TRUE(again) << again.error().place << ": " << again.error().help;
    EXPECT_EQ(other->snapshot()->reg, m_archive->snapshot()->reg);
    EXPECT_EQ(writeDocument(other->snapshot()->reg), first);
}

TEST_F(ImportDocument, WhatTheDiskGivesBackIsWhatWasImported) {
    ASSERT_TRUE(importDocument(*m_archive, kExample));
    const auto loaded = m_archive->store().load();
    ASSERT_TRUE(loaded) << loaded.error().help;
    EXPECT_EQ(loaded->reg, m_archive->snapshot()->reg);
    EXPECT_EQ(m_archive->store().verifyChain(), std::nullopt);
}

TEST_F(ImportDocument, RulingTakesTheStateOfTheEvidence) {
    ASSERT_TRUE(importDocument(*m_archive, kExample));
    const auto& evidence = m_archive->snapshot()->reg.rulings.at(0).evidence;
    ASSERT_TRUE(evidence);
    EXPECT_TRUE(evidence->digest);
    EXPECT_TRUE(evidence->grade);
}

// The fault: rulings took the evidence as it was before the files were hashed, and were stale at
// once.
TEST_F(ImportDocument, RulingOnAFileWithoutAHashIsNotStaleAtOnce) {
    test::writeText(m_folder / "notes.txt", "abc");
    const auto file = test::writeText(m_folder / "ruled.json", R"({
        "format": "lostlines-exchange", "version": 1,
        "people": [{"id": "p1", "name": "Ada Brook"}],
        "sources": [{"id": "s1", "title": "Ledger", "kind": "text", "authority": "maker",
                     "files": [{"id": "f1", "path": "notes.txt"}]}],
        "dimensions": [{"id": "d1", "name": "Height", "quantity": "length"}],
        "readings": [{"id": "r1", "of": "d1", "basis": "stated", "source": "s1", "value": "9 ft"}],
        "rulings": [{"id": "k1", "on": "d1", "value": "9 ft", "reason": "It says so.", "by": "p1",
                     "at": "2026-05-01T10:00:00Z"}]})");
    const auto done = importDocument(*m_archive, file);
    ASSERT_TRUE(done) << done.error().place << ": " << done.error().help;
    const auto& reg = m_archive->snapshot()->reg;
    const auto analysis = judgement::analyse(reg);
    ASSERT_TRUE(analysis);
    EXPECT_EQ(reg.rulings.at(0).evidence->digest, analysis->dimensions.at(0).digest);
}

TEST_F(ImportDocument, FileBesideTheDocumentIsCopiedInAndDescribed) {
    test::writeText(m_folder / "notes.TXT", "abc");
    ASSERT_TRUE(importDocument(*m_archive, document(R"({"id": "f1", "path": "notes.TXT"})")));
    const auto& file = m_archive->snapshot()->reg.sources.at(0).files.at(0);
    EXPECT_EQ(file.sha256, kAbc);
    EXPECT_EQ(file.bytes, 3);
    EXPECT_EQ(file.originalName, "notes.TXT");
    EXPECT_EQ(file.path, "originals/" + kAbc + ".txt");
    EXPECT_EQ(test::readText(m_archive->originalOf(file)), "abc");
    EXPECT_TRUE(m_archive->snapshot()->surroundings.missingFiles.empty());
}

TEST_F(ImportDocument, SecondFolderIsLookedThroughToo) {
    std::filesystem::create_directories(m_folder / "scans");
    test::writeText(m_folder / "scans" / "notes.txt", "abc");
    const auto done = importDocument(*m_archive, document(R"({"id": "f1", "path": "x/notes.txt"})"),
                                     {.update = false, .files = m_folder / "scans"});
    ASSERT_TRUE(done) << done.error().help;
    EXPECT_FALSE(
        m_archive->originalOf(m_archive->snapshot()->reg.sources.at(0).files.at(0)).empty());
}

TEST_F(ImportDocument, KnownHashMayLackItsBytes) {
    ASSERT_TRUE(importDocument(
        *m_archive, document(R"({"id": "f1", "path": "gone.tif", "sha256": ")" + kAbc + "\"}")));
    EXPECT_EQ(m_archive->snapshot()->surroundings.missingFiles.size(), 1U);
}

TEST_F(ImportDocument, AbsentFileWithoutAHashIsRefused) {
    expectRefused(document(R"({"id": "f1", "path": "gone.tif"})"), Code::MissingFile,
                  "/sources/0/files/0/path");
}

TEST_F(ImportDocument, OtherBytesThanPromisedAreRefused) {
    test::writeText(m_folder / "notes.txt", "abd");
    expectRefused(document(R"({"id": "f1", "path": "notes.txt", "sha256": ")" + kAbc + "\"}"),
                  Code::HashMismatch, "/sources/0/files/0/sha256");
}

TEST_F(ImportDocument, OneBadFileOfTwoLeavesNoneBehind) {
    test::writeText(m_folder / "notes.txt", "abc");
    expectRefused(document(R"({"id": "f1", "path": "notes.txt"}, {"id": "f2", "path": "no.txt"})"),
                  Code::MissingFile, "/sources/0/files/1/path");
}

TEST_F(ImportDocument, PathsOutOfTheDocumentsFolderAreNotFollowed) {
    std::filesystem::create_directories(m_folder / "inner");
    test::writeText(m_folder / "secret.txt", "abc");
    const std::string text = test::readText(document(R"({"id": "f1", "path": "../secret.txt"})"));
    expectRefused(test::writeText(m_folder / "inner" / "document.json", text), Code::MissingFile,
                  "/sources/0/files/0/path");
    const auto absolute = (m_folder / "secret.txt").string();
    expectRefused(document(R"({"id": "f1", "path": ")" + absolute + "\"}"), Code::MissingFile,
                  "/sources/0/files/0/path");
}

TEST_F(ImportDocument, SymlinkOutOfTheFolderIsNotFollowed) {
    std::filesystem::create_directories(m_folder / "inner");
    test::writeText(m_folder / "secret.txt", "abc");
    std::filesystem::create_symlink(m_folder / "secret.txt", m_folder / "inner" / "link.txt");
    const std::string text = test::readText(document(R"({"id": "f1", "path": "link.txt"})"));
    expectRefused(test::writeText(m_folder / "inner" / "document.json", text), Code::MissingFile,
                  "/sources/0/files/0/path");
}

TEST_F(ImportDocument, BadDocumentChangesNothing) {
    expectRefused(test::writeText(m_folder / "bad.json", "{"), Code::BadDocument,
                  "line 1, column 2");
    expectRefused(m_folder / "none.json", Code::MissingFile, (m_folder / "none.json").string());
}

TEST_F(ImportDocument, SecondImportOfTheSameDocumentNeedsUpdate) {
    ASSERT_TRUE(importDocument(*m_archive, kExample));
    const auto version = m_archive->snapshot()->version;
    const auto again = importDocument(*m_archive, kExample);
    ASSERT_FALSE(again);
    EXPECT_EQ(again.error().code, Code::DuplicateId);
    EXPECT_EQ(m_archive->snapshot()->version, version);
    EXPECT_TRUE(importDocument(*m_archive, kExample, {.update = true, .files = {}}));
}

}  // namespace

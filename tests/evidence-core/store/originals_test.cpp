#include "evidence-core/store/originals.h"

#include "evidence-core/store/digest.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <fstream>
#include <thread>

namespace {

using namespace evidence;
using store::Originals;
namespace fs = std::filesystem;

// SHA-256 of "abc" and of the empty message: FIPS 180-2, appendix B.1; NIST CAVP SHA256ShortMsg
// (Len = 0).
const std::string kAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
const std::string kNothing = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

record::File named(const std::string& path) {
    record::File file;
    file.id = {"f1"};
    file.path = path;
    return file;
}

class OriginalsFolder : public testing::Test {
  protected:
    fs::path given(const std::string& text) {
        return test::writeText(m_folder / "given.tif", text);
    }
    [[nodiscard]] std::size_t kept() const {
        const fs::directory_iterator files(m_folder / "originals");
        return static_cast<std::size_t>(std::distance(begin(files), end(files)));
    }
    test::ScratchFolder m_folder;
    Originals m_originals{m_folder.path()};
};

TEST(Digest, KnowsThePublishedHashes) {
    EXPECT_EQ(store::sha256Of("abc"), kAbc);
    EXPECT_EQ(store::sha256Of(""), kNothing);
    // One million times "a": FIPS 180-2, appendix B.3.
    store::Sha256 sha;
    for (int i = 0; i < 1000; ++i) sha.add(std::string(1000, 'a'));
    EXPECT_EQ(sha.finish(), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_F(OriginalsFolder, AddedFileIsKeptReadOnlyUnderItsHash) {
    const auto added = m_originals.add(given("abc"), named("a.TIF"));
    ASSERT_TRUE(added);
    EXPECT_EQ(added->sha256, kAbc);
    EXPECT_EQ(added->bytes, 3);
    const fs::path kept = m_folder / "originals" / (kAbc + ".tif");
    EXPECT_EQ(test::readText(kept), "abc");
    EXPECT_EQ(fs::status(kept).permissions() & fs::perms::mask, fs::perms(0444));
    EXPECT_EQ(test::readText(m_folder / "given.tif"), "abc");
}

TEST_F(OriginalsFolder, SameBytesAreKeptOnce) {
    ASSERT_TRUE(m_originals.add(given("abc"), named("a.tif")));
    ASSERT_TRUE(m_originals.add(given("abc"), named("b.tif")));
    EXPECT_EQ(kept(), 1U);
}

TEST_F(OriginalsFolder, EmptyFileIsKeptToo) {
    EXPECT_EQ(m_originals.add(given(""), named("a.tif"))->sha256, kNothing);
}

TEST_F(OriginalsFolder, OtherBytesThanPromisedLeaveNothingBehind) {
    auto file = named("a.tif");
    file.sha256 = kNothing;
    const auto added = m_originals.add(given("abc"), file);
    ASSERT_FALSE(added);
    EXPECT_EQ(added.error().code, Code::HashMismatch);
    EXPECT_EQ(kept(), 0U);
}

TEST_F(OriginalsFolder, WhatIsNoRegularFileIsRefusedWithoutWaiting) {
    ASSERT_EQ(::mkfifo((m_folder / "pipe").c_str(), 0600), 0);
    fs::create_directories(m_folder / "folder.tif");
    for (const std::string name : {"pipe", "folder.tif", "absent"}) {
        const auto added = m_originals.add(m_folder / name, named("a.tif"));
        ASSERT_FALSE(added) << name;
        EXPECT_EQ(added.error().code, Code::MissingFile) << name;
        EXPECT_EQ(added.error().place, name);
    }
    EXPECT_EQ(m_originals.add("/dev/zero", named("a.tif")).error().code, Code::MissingFile);
    EXPECT_EQ(kept(), 0U);
}

TEST_F(OriginalsFolder, FileThatGrowsWhileItIsReadIsNeverKeptUnderAWrongHash) {
    const fs::path growing = given(std::string(8'000'000, 'a'));
    std::jthread writer([&](const std::stop_token& stop) {
        std::ofstream out(growing, std::ios::app | std::ios::binary);
        // Paced: a writer at full speed doubles the file with every reading and fills the disk.
        while (!stop.stop_requested()) {
            out << std::string(1000, 'b') << std::flush;
            std::this_thread::sleep_for(std::chrono::microseconds(200));
        }
    });
    for (int i = 0; i < 10; ++i) {
        const auto added = m_originals.add(growing, named("a.tif"));
        if (!added) {
            EXPECT_EQ(added.error().code, Code::HashMismatch);
            continue;
        }
        const auto again = store::fingerprintOf(m_folder / "originals" / (added->sha256 + ".tif"));
        EXPECT_EQ(again->sha256, added->sha256);
    }
}

TEST_F(OriginalsFolder, FixityFindsMissingAndAlteredFiles) {
    record::Register reg;
    reg.sources.resize(1);
    for (const std::string name : {"same", "altered", "missing"}) {
        const auto added = m_originals.add(given(name), named(name + ".txt"));
        auto file = named(name + ".txt");
        file.id = {name};
        file.sha256 = added->sha256;
        reg.sources[0].files.push_back(file);
    }
    auto untold = named("never seen.txt");
    untold.id = {"untold"};
    reg.sources[0].files.push_back(untold);
    const auto pathOf = [&](std::size_t i) { return *m_originals.find(reg.sources[0].files[i]); };
    fs::permissions(pathOf(1), fs::perms::owner_all);
    test::writeText(pathOf(1), "Altered");
    fs::remove(pathOf(2));

    const auto fixity = m_originals.verifyFixity(reg);
    EXPECT_EQ(fixity.altered, (std::vector<record::FileId>{{"altered"}}));
    EXPECT_EQ(fixity.missing, (std::vector<record::FileId>{{"missing"}, {"untold"}}));
}

TEST_F(OriginalsFolder, BytesAreFoundUnderAnyExtension) {
    ASSERT_TRUE(m_originals.add(given("abc"), named("a.tif")));
    auto file = named("x.jpg");
    file.sha256 = kAbc;
    EXPECT_EQ(m_originals.find(file), m_folder / "originals" / (kAbc + ".tif"));
    file.sha256.reset();
    EXPECT_EQ(m_originals.find(file), std::nullopt);
}

}  // namespace

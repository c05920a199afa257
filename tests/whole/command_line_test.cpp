// The command line as docs/exchange.md describes it: statuses, help, and who is refused what.
#include "tests/support/program.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace {

const std::vector<std::string> kVerbs = {
    "new",   "take-in", "import",  "export", "analyse", "explain", "inspect", "measure", "search",
    "table", "report",  "compare", "verify", "pack",    "unpack",  "merge",   "desk"};

TEST(CommandLine, HelpAndVersionAnswerWithStatusZero) {
    EXPECT_EQ(test::runLostlines({"--version"}).status, 0);
    const auto help = test::runLostlines({"--help"});
    EXPECT_EQ(help.status, 0);
    for (const auto& verb : kVerbs) {
        EXPECT_NE(help.out.find(verb), std::string::npos) << verb;
        EXPECT_EQ(test::runLostlines({verb, "--help"}).status, 0) << verb;
    }
}

TEST(CommandLine, WrongUseEndsWithTwo) {
    EXPECT_EQ(test::runLostlines({}).status, 2);
    EXPECT_EQ(test::runLostlines({"polish"}).status, 2);
    EXPECT_EQ(test::runLostlines({"analyse"}).status, 2);
    EXPECT_EQ(test::runLostlines({"analyse", "--colour"}).status, 2);
    const auto json = test::runLostlines({"analyse", "--json"});
    EXPECT_EQ(json.status, 2);
    EXPECT_TRUE(nlohmann::json::parse(json.out).contains("errors"));
}

TEST(CommandLine, VerbsThatComeLaterSaySo) {
    for (const auto& verb : {"merge", "pack", "unpack"}) {
        const auto ran = test::runLostlines({verb, "a", "b"});
        EXPECT_EQ(ran.status, 2) << verb;
        EXPECT_NE(ran.err.find("not in this version"), std::string::npos) << ran.err;
    }
}

TEST(CommandLine, AFolderThatIsNoArchiveEndsWithFour) {
    const test::ScratchFolder scratch;
    for (const auto& verb : {"analyse", "export", "verify"}) {
        const auto ran = test::runLostlines({verb, scratch.path().string()});
        EXPECT_EQ(ran.status, 4) << verb << ran.err;
        EXPECT_TRUE(std::filesystem::is_empty(scratch.path())) << verb << " left something behind";
    }
}

TEST(CommandLine, NewKeepsWhatIsThere) {
    const test::ScratchFolder scratch;
    test::writeText(scratch / "precious.txt", "keep me");
    EXPECT_NE(test::runLostlines({"new", scratch.path().string()}).status, 0);
    EXPECT_EQ(test::readText(scratch / "precious.txt"), "keep me");
    EXPECT_FALSE(std::filesystem::exists(scratch / "register.sqlite"));
}

TEST(TakeIn, RegistersAnyBytesAndAltersNothing) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    test::writeText(scratch / "note.txt", "hoop 4, ask the fitter");
    test::writeText(scratch / "empty.tif", "");
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    const auto ran = test::runLostlines({"take-in", archive, (scratch / "note.txt").string(),
                                         (scratch / "empty.tif").string(), "--as", "text"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.err.find("empty.tif"), std::string::npos) << ran.err;
    const auto document = nlohmann::json::parse(test::runLostlines({"export", archive}).out);
    ASSERT_EQ(document["sources"].size(), 2U);
    EXPECT_EQ(document["sources"][0]["files"][0]["original_name"], "note.txt");
    EXPECT_EQ(document["sources"][0]["kind"], "text");
    EXPECT_EQ(test::readText(scratch / "note.txt"), "hoop 4, ask the fitter");
    EXPECT_EQ(test::runLostlines({"verify", archive}).status, 0);
}

TEST(Verify, NamesAnAlteredOriginal) {
    const test::ScratchFolder scratch;
    const auto archive = scratch / "archive";
    test::writeText(scratch / "note.txt", "three feet six");
    ASSERT_EQ(test::runLostlines({"new", archive.string()}).status, 0);
    ASSERT_EQ(
        test::runLostlines({"take-in", archive.string(), (scratch / "note.txt").string()}).status,
        0);
    for (const auto& entry : std::filesystem::recursive_directory_iterator(archive / "originals"))
        if (entry.is_regular_file()) {
            std::filesystem::permissions(entry.path(), std::filesystem::perms::owner_all);
            test::writeText(entry.path(), "three feet nine");
        }
    const auto ran = test::runLostlines({"verify", archive.string()});
    EXPECT_EQ(ran.status, 4);
    EXPECT_NE((ran.out + ran.err).find("note.txt"), std::string::npos) << ran.out << ran.err;
}

TEST(Explain, SpeaksAsTextAsJsonAndAsAPicture) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    const auto document = (scratch / "document.json").string();
    test::writeText(scratch / "document.json", R"({"format": "lostlines-exchange", "version": 1,
        "archive": {"title": "A car"}, "people": [{"id": "p1", "name": "Ada"}],
        "sources": [{"id": "s1", "title": "Sheet 1", "kind": "drawing", "authority": "maker"},
                    {"id": "s2", "title": "Sheet 2", "kind": "text", "authority": "maker"}],
        "dimensions": [{"id": "d1", "code": "D1", "name": "Sill", "quantity": "length"}],
        "readings": [{"id": "r1", "of": "d1", "basis": "figured", "source": "s1",
                      "value": "38 1/2", "u": 0.05},
                     {"id": "r2", "of": "d1", "basis": "stated", "source": "s2",
                      "value": "38 3/8", "u": 0.1}]})");
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    ASSERT_EQ(test::runLostlines({"import", archive, document}).status, 0);
    const auto text = test::runLostlines({"explain", archive, "D1"});
    EXPECT_EQ(text.status, 0) << text.err;
    EXPECT_NE(text.out.find("Sheet 1 (S1)"), std::string::npos) << text.out;
    EXPECT_NE(text.out.find("80 %"), std::string::npos) << text.out;  // 1/0.05² of the weights

    // The picture does not take the place of the JSON answer.
    const auto picture = scratch / "d1.svg";
    const auto both =
        test::runLostlines({"explain", archive, "D1", "--json", "-o", picture.string()});
    EXPECT_EQ(both.status, 0) << both.err;
    const auto json = nlohmann::json::parse(both.out);
    EXPECT_EQ(json["thread"]["nodes"].size(), 5U);  // two sources, two readings, one value
    double intoValue = 0;
    for (const auto& link : json["thread"]["links"])
        if (link["to"] == "d1") intoValue += link["share"].get<double>();
    EXPECT_NEAR(intoValue, 1, 1e-9);
    const auto svg = test::readText(picture);
    EXPECT_NE(svg.find("<svg"), std::string::npos);
    EXPECT_NE(svg.find("Sheet 2"), std::string::npos);
    // Nothing but the picture is printed where the picture alone is asked for.
    EXPECT_TRUE(test::runLostlines({"explain", archive, "D1", "-o", picture.string()}).out.empty());
    EXPECT_EQ(test::runLostlines({"explain", archive, "D9"}).status, 3);
}

}  // namespace

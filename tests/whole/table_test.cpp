// The verb `table` as docs/exchange.md describes it.
#include "tests/support/program.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <string>

namespace {

using nlohmann::json;

json answer(const std::vector<std::string>& arguments) {
    std::vector<std::string> all{"table"};
    all.insert(all.end(), arguments.begin(), arguments.end());
    all.emplace_back("--json");
    const auto ran = test::runLostlines(all);
    EXPECT_EQ(ran.status, 0) << ran.err;
    return json::parse(ran.out);
}

TEST(Table, AmbiguousWordsAreAQuestionWithCandidates) {
    const auto asked = answer({"16", "gauge", "--era", "1909", "--region", "GB"});
    EXPECT_EQ(asked["format"], "lostlines-table");
    EXPECT_EQ(asked["words"], "16 gauge");
    EXPECT_EQ(asked["settled"], false);
    EXPECT_NE(asked["question"], "");
    ASSERT_EQ(asked["meanings"].size(), 6U);
    EXPECT_EQ(asked["meanings"][0]["system"], "swg");
    EXPECT_EQ(asked["meanings"][0]["rows"], json::array({"swg-16"}));
    EXPECT_EQ(asked["meanings"][1]["fits_region"].get<bool>() &&
                  asked["meanings"][1]["fits_era"].get<bool>(),
              false);
}

TEST(Table, RowByItsIdSaysWhereItComesFrom) {
    const auto found = answer({"rg-standard"});
    ASSERT_EQ(found["rows"].size(), 1U);
    const auto& row = found["rows"][0];
    EXPECT_EQ(row["value"], 56.5);
    EXPECT_EQ(row["unit"], "in");
    EXPECT_EQ(row["u"], 0.4);
    EXPECT_EQ(row["from_memory"], false);
    EXPECT_EQ(row["era"], "1846/..");
    EXPECT_FALSE(row["source"].get<std::string>().empty());
}

TEST(Table, PeoplesTextNamesTheSystemsAndTheDoubt) {
    const auto ran = test::runLostlines({"table", "2", "x", "4", "--era", "1935"});
    EXPECT_EQ(ran.status, 0);
    for (const auto* words : {"which system", "1.625 in, u 0.04619", "of another time (1970/..)"})
        EXPECT_NE(ran.out.find(words), std::string::npos) << words << "\n" << ran.out;
}

TEST(Table, BadAnswersAreOneError) {
    for (const auto& [option, value] :
         {std::pair{"--region", "Atlantis"}, std::pair{"--era", "last year"}}) {
        const auto ran = test::runLostlines({"table", "brick", option, value, "--json"});
        EXPECT_EQ(ran.status, 3) << option;
        const auto errors = json::parse(ran.out)["errors"];
        ASSERT_EQ(errors.size(), 1U);
        EXPECT_EQ(errors[0]["place"], option);
    }
    EXPECT_EQ(test::runLostlines({"table"}).status, 2);
    EXPECT_EQ(test::runLostlines({"table", "brick", "--kind", "colour"}).status, 2);
}

TEST(Table, NothingFoundIsSaidAndIsNoError) {
    const auto ran = test::runLostlines({"table", "zeppelin"});
    EXPECT_EQ(ran.status, 0);
    EXPECT_TRUE(ran.out.empty());
    EXPECT_FALSE(ran.err.empty());
}

TEST(Table, AnArchivesOwnRowsCountWithIt) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    test::writeText(scratch / "own.json", R"({"format": "lostlines-exchange", "version": 1,
        "archive": {"title": "x", "settings": {"table_rows": [
            {"id": "siding", "kind": "length", "name": "Rail at the siding", "value": 36.2,
             "unit": "in", "u": 0.05, "source": "s1"}]}},
        "sources": [{"id": "s1", "title": "Gauged in May", "kind": "part"}]})");
    const auto taken = test::runLostlines({"import", archive, (scratch / "own.json").string()});
    ASSERT_EQ(taken.status, 0) << taken.err;
    const auto found = answer({"siding", "--with", archive});
    ASSERT_EQ(found["rows"].size(), 1U);
    EXPECT_EQ(found["rows"][0]["table"], "own");
    EXPECT_EQ(found["rows"][0]["source"], "Gauged in May");
    EXPECT_TRUE(answer({"siding"})["rows"].empty());
    // It goes out as it came in.
    const auto again = json::parse(test::runLostlines({"export", archive}).out);
    EXPECT_EQ(again["archive"]["settings"]["table_rows"][0]["id"], "siding");
}

TEST(Table, OwnRowWithoutASourceIsRefusedWhole) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    test::writeText(scratch / "own.json", R"({"format": "lostlines-exchange", "version": 1,
        "archive": {"title": "x", "settings": {"table_rows": [
            {"id": "siding", "kind": "length", "name": "Rail", "value": 36.2, "unit": "in",
             "u": 0.05}]}}})");
    const auto ran = test::runLostlines({"import", archive, (scratch / "own.json").string()});
    EXPECT_EQ(ran.status, 3);
    EXPECT_NE(ran.err.find("/archive/settings/table_rows/0"), std::string::npos) << ran.err;
}

}  // namespace

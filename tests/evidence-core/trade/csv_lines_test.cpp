#include "evidence-core/trade/csv_lines.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;
using trade::csvLines;
using Lines = std::vector<trade::CsvLine>;

// RFC 4180, section 2: the examples of its rules 1 to 7.
TEST(CsvLines, ReadWhatTheStandardShows) {
    EXPECT_EQ(*csvLines("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
              (Lines{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
    EXPECT_EQ(*csvLines("\"aaa\",\"b\r\nbb\",\"ccc\"\r\n"), (Lines{{"aaa", "b\r\nbb", "ccc"}}));
    EXPECT_EQ(*csvLines("\"aaa\",\"b\"\"bb\",\"ccc\"\n"), (Lines{{"aaa", "b\"bb", "ccc"}}));
}

TEST(CsvLines, KeepEmptyFieldsAndSpaces) {
    EXPECT_EQ(*csvLines("a,, b \n,,\n"), (Lines{{"a", "", " b "}, {"", "", ""}}));
}

TEST(CsvLines, RefuseWithTheLine) {
    for (const auto& [text, place] : std::vector<std::pair<std::string, std::string>>{
             {"a,b\nc\n", "line 2"}, {"a\n\"b", "line 2"}, {"a\nb\"c\n", "line 2"}}) {
        const auto lines = csvLines(text);
        ASSERT_FALSE(lines) << text;
        EXPECT_EQ(lines.error().code, Code::BadDocument);
        EXPECT_EQ(lines.error().place, place);
    }
}

}  // namespace

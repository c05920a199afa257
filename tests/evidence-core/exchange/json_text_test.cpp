#include "evidence-core/exchange/json_text.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;
using exchange::Json;
using exchange::JsonNumber;
using exchange::Layout;
using exchange::parseJson;
using exchange::printJson;

Refusal refusalOf(std::string_view text) {
    const auto json = parseJson(text);
    EXPECT_FALSE(json) << text;
    return json ? Refusal{} : json.error();
}

TEST(JsonText, NumbersKeepTheirLastWrittenDecimal) {
    for (const std::string text : {"2.50", "14.250", "1e-3", "0.10", "5", "-3", "1E+2",
                                   "12345678901234567890", "123456789012345678901234567890"})
        EXPECT_EQ(printJson(*parseJson(text), Layout::Compact), text);
    EXPECT_EQ(parseJson("2.50")->as<JsonNumber>()->value, 2.5);
}

TEST(JsonText, NumbersOfOurOwnArePrintedAsShortAsTheyReadBack) {
    EXPECT_EQ(JsonNumber::of(0.1).text, "0.1");
    EXPECT_EQ(JsonNumber::of(96.0).text, "96");
    EXPECT_EQ(JsonNumber::of(-0.0).text, "0");
    EXPECT_EQ(parseJson(JsonNumber::of(1e300).text)->as<JsonNumber>()->value, 1e300);
    EXPECT_EQ(JsonNumber::of(std::int64_t{-7}).text, "-7");
}

TEST(JsonText, TextsComeBackWhateverTheyHold) {
    const Json text{std::string("\"\\ \n\t\r\x01 \u00e9 \u202e =1+1 \U0001F600")};
    EXPECT_EQ(*parseJson(printJson(text, Layout::Compact)), text);
}

TEST(JsonText, IndentedPrintsPlainListsOnOneLine) {
    const auto json = parseJson(R"({"a":[1,2.0],"b":[[1,2],[3,4]],"c":{},"d":[]})");
    EXPECT_EQ(printJson(*json, Layout::Indented), R"({
  "a": [1, 2.0],
  "b": [
    [1, 2],
    [3, 4]
  ],
  "c": {},
  "d": []
}
)");
}

TEST(JsonText, SyntaxErrorNamesLineAndColumn) {
    const auto refusal = refusalOf("{\n  \"a\": 1,\n  \"b\": ?\n}");
    EXPECT_EQ(refusal.code, Code::BadDocument);
    EXPECT_EQ(refusal.place, "line 3, column 8");
}

TEST(JsonText, TextAfterTheDocumentIsRefused) {
    EXPECT_EQ(refusalOf("{} {}").code, Code::BadDocument);
}

TEST(JsonText, KeyThatStandsTwiceIsRefused) {
    const auto refusal = refusalOf(R"({"a": [{"x": 1, "y": 2, "x": 3}]})");
    EXPECT_EQ(refusal.code, Code::DuplicateId);
    EXPECT_EQ(refusal.place, "/a/0/x");
}

TEST(JsonText, NumberTooLargeForADoubleIsRefusedWithItsPointer) {
    const auto refusal = refusalOf(R"({"a": [1, 1e999]})");
    EXPECT_EQ(refusal.code, Code::NotFinite);
    EXPECT_EQ(refusal.place, "/a/1");
}

TEST(JsonText, WordsThatAreNoNumbersAreRefusedWithTheirPointer) {
    for (const std::string word : {"NaN", "Infinity", "-Infinity", "nan", "inf"}) {
        const auto refusal = refusalOf(R"({"a": {"u": )" + word + "}}");
        EXPECT_EQ(refusal.code, Code::NotFinite) << word;
        EXPECT_EQ(refusal.place, "/a/u") << word;
    }
}

TEST(JsonText, BytesThatAreNotUtf8AreRefused) {
    for (const std::string bytes : {"\xE9", "\xC0\x80", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xFF"})
        EXPECT_EQ(refusalOf("{\"a\": \"" + bytes + "\"}").code, Code::BadDocument);
    EXPECT_EQ(refusalOf(std::string_view("\xFF\xFE{\0}\0", 6)).code, Code::BadDocument);
}

TEST(JsonText, ByteOrderMarkOfUtf8IsPassedOver) {
    EXPECT_TRUE(parseJson("\xEF\xBB\xBF{}"));
}

TEST(JsonText, ZeroCharacterIsRefused) {
    const auto refusal = refusalOf(R"({"a": "x\u0000y"})");
    EXPECT_EQ(refusal.code, Code::BadValue);
    EXPECT_EQ(refusal.place, "/a");
}

TEST(JsonText, DepthAndSizeAreBounded) {
    const std::string deep(100000, '[');
    EXPECT_EQ(refusalOf(deep).code, Code::TooLarge);
    const auto large = parseJson("[1, 2, 3]", {.bytes = 8, .depth = 64});
    ASSERT_FALSE(large);
    EXPECT_EQ(large.error().code, Code::TooLarge);
    EXPECT_TRUE(parseJson(std::string(64, '[') + std::string(64, ']')));
}

TEST(JsonText, PointersEscapeSlashAndTilde) {
    EXPECT_EQ(exchange::pointerTo("/a", "b/c~d"), "/a/b~1c~0d");
    EXPECT_EQ(exchange::pointerTo("/a", std::size_t{3}), "/a/3");
}

TEST(JsonText, Utf8CheckFollowsTheTableOfWellFormedSequences) {
    EXPECT_TRUE(exchange::isPlainUtf8("a\u00e9\u20ac\U0001F600"));
    for (const std::string bytes : {"\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80",
                                    "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xE2\x82"})
        EXPECT_FALSE(exchange::isPlainUtf8(bytes));
    EXPECT_FALSE(exchange::isPlainUtf8(std::string_view("a\0b", 3)));
}

}  // namespace

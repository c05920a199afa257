#include "evidence-core/quantity/edtf.h"

#include "case_table.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>

namespace evidence::quantity {
namespace {

std::string bounds(const EdtfDate& date) {
    return (date.earliest ? dayText(*date.earliest) : "..") + "/" +
           (date.latest ? dayText(*date.latest) : "..") + (date.approximate ? "~" : "") +
           (date.uncertain ? "?" : "");
}

std::string read(std::string_view text) {
    const Result<EdtfDate> date = parseEdtf(text);
    return date ? bounds(*date) : "refused: " + date.error().help;
}

// Forms of ISO 8601-2:2019 levels 0 and 1 (as published on the Library of Congress EDTF page).
TEST(Edtf, ReadsLevelZeroAndOne) {
    EXPECT_EQ(read("1909"), "1909-01-01/1909-12-31");
    EXPECT_EQ(read("1909-02~"), "1909-02-01/1909-02-28~");
    EXPECT_EQ(read("1911?"), "1911-01-01/1911-12-31?");
    EXPECT_EQ(read("1911%"), "1911-01-01/1911-12-31~?");
    EXPECT_EQ(read("191X"), "1910-01-01/1919-12-31");
    EXPECT_EQ(read("19XX"), "1900-01-01/1999-12-31");
    EXPECT_EQ(read("1912-02-XX"), "1912-02-01/1912-02-29");
    EXPECT_EQ(read("1912-XX"), "1912-01-01/1912-12-31");
    EXPECT_EQ(read("1912-XX-XX"), "1912-01-01/1912-12-31");
    EXPECT_EQ(read("1909/1910~"), "1909-01-01/1910-12-31~");
    EXPECT_EQ(read("../1911"), "../1911-12-31");
    EXPECT_EQ(read("1911/.."), "1911-01-01/..");
    EXPECT_EQ(read("1911-05/"), "1911-05-01/..");
    EXPECT_EQ(read("1911-22"), "1911-06-01/1911-08-31");
    EXPECT_EQ(read("1911-24"), "1911-01-01/1912-02-29");
    EXPECT_EQ(read("-0001"), "-0001-01-01/-0001-12-31");
    EXPECT_EQ(read("1935-04-03T12:00:00Z"), "1935-04-03/1935-04-03");
    EXPECT_EQ(read("1935-04-03T12:00:00"), "1935-04-03/1935-04-03");
}

TEST(Edtf, KeepsPrecisionAndText) {
    EXPECT_EQ(parseEdtf("191X")->precision, DatePrecision::Decade);
    EXPECT_EQ(parseEdtf("1909-02")->precision, DatePrecision::Month);
    EXPECT_EQ(parseEdtf("1909-02-03/1911")->precision, DatePrecision::Year);
    EXPECT_EQ(parseEdtf("1909-02~")->text, "1909-02~");
}

TEST(Edtf, SaysWhatIsWrong) {
    for (const char* text :
         {"", "1909-13", "1909-00", "1900-02-29", "1935-04-31", "0000-00-00", "60", "191", "19111",
          "1909-2", "1911/1909", "../..", "1909-02-", "1909 ", "[1909,1910]", "1909-02-03T",
          "1909-02-03T25:00:00Z", "1/2/3", "XXXX"}) {
        const Result<EdtfDate> date = parseEdtf(text);
        ASSERT_FALSE(date) << text;
        EXPECT_EQ(date.error().code, Code::BadDate) << text;
    }
    EXPECT_NE(read("1900-02-29").find("no day 29"), std::string::npos);
}

// Robustness case 63: data/42_dates.csv. The expectations there are in words; each is spelt out
// here.
TEST(WrittenDate, ReadsEveryCaseOfTheDateTable) {
    const std::map<std::string, std::string> expected{
        {"1935-04-03", "1935-04-03/1935-04-03"},
        {"1935-04", "1935-04-01/1935-04-30"},
        {"1935", "1935-01-01/1935-12-31"},
        {"c. 1935", "1935-01-01/1935-12-31~"},
        {"1935?", "1935-01-01/1935-12-31?"},
        {"before 1936", "../1935-12-31"},
        {"1934/1936", "1934-01-01/1936-12-31"},
        {"193X", "1930-01-01/1939-12-31"},
        {"1752-09-05", "1752-09-05/1752-09-05"},
        {"1935-04-03T23:30:00-05:00", "1935-04-04/1935-04-04"},
    };
    int refused = 0;
    for (const auto& row : readCaseTable("42_dates.csv")) {
        const Result<EdtfDate> date = parseWrittenDate(row[0]);
        const auto wanted = expected.find(row[0]);
        if (wanted == expected.end()) {
            ++refused;
            ASSERT_FALSE(date) << row[0] << ": " << bounds(*date);
        } else {
            ASSERT_TRUE(date) << row[0] << ": " << date.error().help;
            EXPECT_EQ(bounds(*date), wanted->second) << row[0];
            EXPECT_EQ(date->text, row[0]);
        }
    }
    EXPECT_EQ(refused, 6);
}

TEST(WrittenDate, AsksWhereTwoReadingsArePossible) {
    const std::string slashed = parseWrittenDate("03/04/1935").error().help;
    EXPECT_NE(slashed.find("1935-04-03"), std::string::npos);
    EXPECT_NE(slashed.find("1935-03-04"), std::string::npos);
    // Both systems as the table says: 1900: 1935-02-25, 1904: 1939-02-26.
    const std::string serial = parseWrittenDate("12840").error().help;
    EXPECT_NE(serial.find("1935-02-25"), std::string::npos);
    EXPECT_NE(serial.find("1939-02-26"), std::string::npos);
    EXPECT_NE(parseWrittenDate("31/04/1935").error().help.find("no such day"), std::string::npos);
    EXPECT_EQ(bounds(*parseWrittenDate("after 1936")), "1937-01-01/..");
    EXPECT_EQ(parseWrittenDate("c. 1935")->edtf, "1935~");
}

TEST(Edtf, CertainlyAfterNeedsCertainDates) {
    EXPECT_TRUE(certainlyAfter(*parseEdtf("1913"), *parseEdtf("1911/1912")));
    EXPECT_FALSE(certainlyAfter(*parseEdtf("1912"), *parseEdtf("1911/1912")));
    EXPECT_FALSE(certainlyAfter(*parseEdtf("1913~"), *parseEdtf("1911")));
    EXPECT_FALSE(certainlyAfter(*parseEdtf("1913"), *parseEdtf("1911/..")));
}

RC_GTEST_PROP(EdtfProperty, EveryDayReadsBackAsItself, ()) {
    const CivilDay day = *rc::gen::inRange(-700'000, 2'900'000);
    const Result<EdtfDate> date = parseEdtf(dayText(day));
    RC_ASSERT(date.has_value());
    RC_ASSERT(date->earliest == day && date->latest == day);
}

RC_GTEST_PROP(EdtfProperty, AnyTextIsReadOrRefused, ()) {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(
        rc::gen::element<std::string>("1909", "19", "X", "-", "02", "/", "..", "~", "?", "%", "T",
                                      "10:00:00", "Z", "c. ", "before ", " ", ".", "31"));
    std::string text;
    for (const std::string& piece : pieces) text += piece;
    const Result<EdtfDate> date = parseWrittenDate(text);
    if (date) {
        RC_ASSERT(date->text == text);
        if (date->earliest && date->latest) RC_ASSERT(*date->earliest <= *date->latest);
    } else {
        RC_ASSERT(date.error().code == Code::BadDate);
    }
}

}  // namespace
}  // namespace evidence::quantity

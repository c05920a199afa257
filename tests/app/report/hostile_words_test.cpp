// Words of the register are shown, never obeyed, and break neither file nor page.
#include "app/report/document.h"
#include "tests/app/report/read_back.h"
#include "tests/app/report/small_register.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {

using tests::report::pressed;
using tests::report::SmallRegister;

struct Hostile {
    const char* name;
    std::string words;
};

std::string repeated(const std::string& part, int times) {
    std::string words;
    for (int i = 0; i < times; ++i) words += part;
    return words;
}

const std::vector<Hostile> kHostile{
    Hostile{"Script", "<script>alert(1)</script><img src=x onerror=alert(1)>"},
    Hostile{"Quotes", R"(" onmouseover="x" ' & &amp; ]]> --> %1 %2 \ )"},
    Hostile{"RightToLeft",
            "\u05E9\u05DC\u05D5\u05DD \u202Egnp.exe\u202C \u0645\u0631\u062D\u0628\u0627"},
    Hostile{"Controls", std::string("bell\x07 null\0 escape\x1B\x7F line\nbreak\ttab", 39)},
    Hostile{"BrokenUtf8", "caf\xE9 \xF0\x9F\x9A\x82 \xC3"},
    Hostile{"OneLongWord", repeated("Verbindungs", 40)},
    Hostile{"ThreeHundredLetters", repeated("hoop rail ", 30)}};

/// `words` wherever people write freely.
void writeEverywhere(evidence::record::Register& reg, const std::string& words) {
    reg.archive.title = words;
    reg.archive.subject = words;
    reg.people.front().name = words;
    for (auto& d : reg.dimensions) d.name = words;
    for (auto& source : reg.sources) {
        source.title = words;
        source.callNumber = words;
    }
    reg.dimensions.front().component = words + "/" + words;
    reg.rulings.front().reason = words;
    reg.queries.front().text = words;
    reg.readings.back().value = words;
}

class HostileWords : public ::testing::TestWithParam<Hostile> {};

TEST_P(HostileWords, AreTextInHtml) {
    SmallRegister small;
    writeEverywhere(small.built.reg, GetParam().words);
    const auto read = tests::report::readHtml(small.write(".html"));
    EXPECT_EQ(read.complaint.toStdString(), "");
    EXPECT_EQ(read.forbidden.join(QLatin1Char(' ')).toStdString(), "");
    EXPECT_TRUE(pressed(read.words).contains(pressed(app::report::shown(GetParam().words))));
}

INSTANTIATE_TEST_SUITE_P(Titles, HostileWords, ::testing::ValuesIn(kHostile),
                         [](const auto& given) { return given.param.name; });

// One PDF for all of them: each dimension and each source bears another one.
TEST(HostileWordsInPdf, StayOnThePageAndOffEachOther) {
    SmallRegister small;
    auto& reg = small.built.reg;
    writeEverywhere(reg, kHostile.back().words);
    for (std::size_t i = 0; i < kHostile.size(); ++i) {
        reg.dimensions[i % reg.dimensions.size()].name = kHostile[i].words;
        reg.sources[i % reg.sources.size()].title = kHostile[i].words;
    }
    reg.readings.back().value = repeated("Verbindungs", 40);
    const auto pdf = small.write(".pdf");
    EXPECT_EQ(tests::report::pdfComplaints(pdf).toStdString(), "");
    EXPECT_EQ(tests::report::wordsAstray(pdf).join(QLatin1Char('\n')).toStdString(), "");
}

}  // namespace

// The provenance report of the sample archive, made as app/run makes it: what a reviewer asks for
// is in it, for every dimension and every source.
#include "tests/support/program.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <charconv>
#include <cmath>
#include <memory>
#include <string>

namespace {

using Json = nlohmann::json;

constexpr std::uintmax_t kMostBytes = 15'000'000;

std::string withoutSpaces(const std::string& words) {
    std::string pressed;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words.compare(i, 2, "\xC2\xA0") == 0)
            ++i;  // a space that does not break
        else if (words[i] != ' ' && words[i] != '\n' && words[i] != '\f')
            pressed += words[i];
    }
    return pressed;
}

std::string escaped(const std::string& words) {
    std::string html;
    for (const char c : words) {
        if (c == '&')
            html += "&amp;";
        else if (c == '"')
            html += "&quot;";
        else if (c == '\'')
            html += "&#39;";
        else if (c == '<')
            html += "&lt;";
        else
            html += c;
    }
    return html;
}

void expectHeld(const std::string& text, const std::string& words, const Json& where) {
    EXPECT_NE(text.find(words), std::string::npos) << where << ": " << words;
}

/// The sample archive and its two reports, made once for all tests.
class SampleReport : public ::testing::Test {
  public:
    static void SetUpTestSuite() {
        s_folder = std::make_unique<test::ScratchFolder>();
        const auto in = [](const char* name) { return (*s_folder / name).string(); };
        ASSERT_EQ(test::runProgram(LOSTLINES_SAMPLE, {in("sources")}).status, 0);
        ASSERT_EQ(test::runLostlines({"new", in("teal")}).status, 0);
        const auto imported = test::runLostlines({"import", in("teal"), in("sources/teal.json")});
        ASSERT_EQ(imported.status, 0) << imported.err;
        s_wroteHtml = test::runLostlines({"report", in("teal"), "-o", in("teal.html")});
        s_wrotePdf = test::runLostlines({"report", in("teal"), "-o", in("teal.pdf")});
        s_html = test::readText(*s_folder / "teal.html");
        s_pdf = test::runProgram("pdftotext", {"-raw", in("teal.pdf"), "-"}).out;
        s_analysis = Json::parse(test::runLostlines({"analyse", in("teal"), "--json"}).out);
        s_document = Json::parse(test::runLostlines({"export", in("teal")}).out);
    }
    static void TearDownTestSuite() { s_folder.reset(); }

  protected:
    static inline std::unique_ptr<test::ScratchFolder> s_folder;
    static inline test::Ran s_wroteHtml;
    static inline test::Ran s_wrotePdf;
    static inline std::string s_html;
    static inline std::string s_pdf;
    static inline Json s_analysis;
    static inline Json s_document;
};

TEST_F(SampleReport, SaysNothingButThatItWasWritten) {
    const auto wrote = [](const char* name) {
        return "Wrote " + (*s_folder / name).string() + ".\n";
    };
    EXPECT_EQ(s_wroteHtml.err, wrote("teal.html"));
    EXPECT_EQ(s_wrotePdf.err, wrote("teal.pdf"));
}

TEST_F(SampleReport, CanBeSentByPost) {
    EXPECT_LT(std::filesystem::file_size(*s_folder / "teal.html"), kMostBytes);
    EXPECT_LT(std::filesystem::file_size(*s_folder / "teal.pdf"), kMostBytes);
}

TEST_F(SampleReport, IsASoundPdf) {
    const auto check = test::runProgram("qpdf", {"--check", (*s_folder / "teal.pdf").string()});
    EXPECT_EQ(check.status, 0) << check.out << check.err;
}

/// The number that stands in `html` after `label`, from `from` on.
double numberAfter(const std::string& html, const std::string& label, std::size_t from) {
    const auto at = html.find(label, from);
    if (at == std::string::npos) return std::nan("");
    std::string digits = html.substr(at + label.size(), 24);
    if (digits.starts_with("\xE2\x88\x92")) digits.replace(0, 3, "-");  // the minus sign
    double value = std::nan("");
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

TEST_F(SampleReport, HoldsEveryDimensionWithItsValueAndGrade) {
    const std::string pdf = withoutSpaces(s_pdf);
    int valued = 0;
    for (const Json& d : s_document["dimensions"]) {
        const std::string title =
            d["code"].get<std::string>() + "  " + d["name"].get<std::string>();
        const auto at = s_html.find("<span class=\"name\">" + escaped(title) + "</span>");
        ASSERT_NE(at, std::string::npos) << title;
        EXPECT_NE(pdf.find(withoutSpaces(title)), std::string::npos) << title;
        for (const Json& result : s_analysis["dimensions"]) {
            if (result["id"] != d["id"]) continue;
            const auto grade = s_html.find("Grade</dt><dd><strong>", at);
            ASSERT_NE(grade, std::string::npos) << title;
            if (result["grade"] != "-") {
                EXPECT_LT(s_html.find(result["grade"].get<std::string>(), grade), grade + 40)
                    << title;
            }
            if (result["value"].is_null()) continue;
            const std::string unit = result["unit"];
            if (unit != "in" && unit != "lb" && unit != "deg" && unit != "1") continue;
            ++valued;
            const double printed = numberAfter(s_html, "Size of the original</dt><dd><strong>", at);
            EXPECT_NEAR(printed, result["value"].get<double>(),
                        std::max(result["u"].get<double>(), 1e-4))
                << title;
        }
    }
    EXPECT_GE(valued, 120);
}

TEST_F(SampleReport, HoldsEverySourceWithCallNumberAndDigest) {
    const std::string pdf = withoutSpaces(s_pdf);
    for (const Json& source : s_document["sources"]) {
        if (source.contains("call_number")) {
            const std::string call = source["call_number"];
            expectHeld(s_html, escaped(call), source["id"]);
            expectHeld(pdf, withoutSpaces(call), source["id"]);
        }
        if (!source.contains("files")) continue;
        for (const Json& file : source["files"]) {
            const std::string sha = file["sha256"];
            expectHeld(s_html, sha, file["id"]);
            expectHeld(pdf, sha, file["id"]);
        }
    }
}

TEST_F(SampleReport, HoldsEveryDecisionWithItsReason) {
    for (const char* kind : {"rulings", "departures"})
        for (const Json& record : s_document[kind])
            expectHeld(s_html, escaped(record["reason"]), record["id"]);
    for (const Json& reading : s_document["readings"])
        if (reading.contains("set_aside"))
            expectHeld(s_html, escaped(reading["set_aside"]), reading["id"]);
    for (const char* kind : {"enquiries", "queries"})
        for (const Json& record : s_document[kind])
            expectHeld(s_html, escaped(record["text"]), record["id"]);
}

TEST_F(SampleReport, NamesEverythingThatRestsOnAGuessOrIsInConflict) {
    const auto guesses = s_html.find("id=\"guesses\"");
    const auto conflicts = s_html.find("id=\"conflicts\"");
    const auto departures = s_html.find("id=\"departures\"");
    ASSERT_LT(guesses, conflicts);
    ASSERT_LT(conflicts, departures);
    const std::string conjecture = s_html.substr(guesses, conflicts - guesses);
    const std::string faults = s_html.substr(conflicts, departures - conflicts);
    for (const Json& d : s_analysis["dimensions"])
        if (d["rests_on_guess"])
            expectHeld(conjecture, d["code"].get<std::string>() + " ", d["id"]);
    for (const Json& finding : s_analysis["findings"])
        if (finding["severity"] == "high")
            expectHeld(faults, escaped(finding["text"]), finding["kind"]);
}

TEST_F(SampleReport, WritesEveryKindAndRefusesWhatNamesNothing) {
    const std::string archive = (*s_folder / "teal").string();
    for (const char* kind : {"short", "shop", "departures", "guesses"})
        EXPECT_EQ(test::runLostlines({"report", archive, "-o",
                                      (*s_folder / kind).string() + ".html", "--kind", kind})
                      .status,
                  0)
            << kind;
    const std::string slip = (*s_folder / "slip.pdf").string();
    EXPECT_EQ(test::runLostlines({"report", archive, "-o", slip, "--kind", "slip"}).status, 2);
    EXPECT_EQ(test::runLostlines({"report", archive, "-o", slip, "--kind", "slip", "--on", "D144"})
                  .status,
              0);
    const auto kept =
        test::runLostlines({"report", archive, "-o", slip, "--kind", "slip", "--on", "D144"});
    EXPECT_EQ(kept.status, 2) << "an existing report is kept";
    const auto refused = test::runLostlines(
        {"report", archive, "-o", (*s_folder / "none.html").string(), "--on", "D999"});
    EXPECT_EQ(refused.status, 3);
    EXPECT_NE(refused.err.find("D999"), std::string::npos) << refused.err;
    EXPECT_FALSE(std::filesystem::exists(*s_folder / "none.html"));
}

}  // namespace

// Every kind of report, what the shop is told, and filters that name nothing.
#include "tests/app/report/read_back.h"
#include "tests/app/report/small_register.h"

#include <gtest/gtest.h>

namespace {

using app::report::Kind;
using tests::report::pressed;
using tests::report::SmallRegister;

QString wordsOf(SmallRegister& small, const app::report::ReportRequest& request) {
    return tests::report::readHtml(small.write(".html", request)).words;
}

class Kinds : public ::testing::TestWithParam<Kind> {};

TEST_P(Kinds, WriteBothFormats) {
    SmallRegister small;
    const auto request = SmallRegister::only(GetParam(), GetParam() == Kind::Slip ? "D5" : "");
    const auto pdf = small.write(".pdf", request);
    EXPECT_EQ(tests::report::pdfComplaints(pdf).toStdString(), "");
    EXPECT_EQ(tests::report::wordsAstray(pdf).join(QLatin1Char(' ')).toStdString(), "");
    const auto read = tests::report::readHtml(small.write(".html", request));
    EXPECT_EQ(read.complaint.toStdString(), "");
    EXPECT_EQ(read.forbidden.join(QLatin1Char(' ')).toStdString(), "");
    EXPECT_TRUE(read.words.contains(QStringLiteral("± is half the 95 % interval")));
}

INSTANTIATE_TEST_SUITE_P(All, Kinds,
                         ::testing::Values(Kind::Provenance, Kind::Short, Kind::Shop, Kind::Slip,
                                           Kind::Departures, Kind::Guesses),
                         [](const auto& given) {
                             return std::string(app::report::nameOf(given.param));
                         });

TEST(Slip, GivesTheShopItsFractionAndWhatToAllow) {
    SmallRegister small;
    const QString words = wordsOf(small, SmallRegister::only(Kind::Slip, "D5"));
    EXPECT_TRUE(words.contains(QStringLiteral("3′-7 5⁄16″"))) << words.toStdString();
    EXPECT_TRUE(words.contains(QStringLiteral("allow ±\u00A01⁄16\u00A0in")));
    EXPECT_TRUE(words.contains(QStringLiteral("ruled by Ada Brook, 1 May 2026")));
    EXPECT_FALSE(words.contains(QStringLiteral("guess")));
    EXPECT_FALSE(words.contains(QStringLiteral("licensed practice")));
}

TEST(Slip, SaysBeforeTheSizeThatItIsAGuess) {
    SmallRegister small;
    const QString words = wordsOf(small, SmallRegister::only(Kind::Slip, "D3"));
    const auto guess = words.indexOf(QStringLiteral("Rests on a guess"));
    const auto size = words.indexOf(QStringLiteral("2′-0″"));
    ASSERT_GE(guess, 0) << words.toStdString();
    EXPECT_LT(guess, size);
    EXPECT_TRUE(words.contains(QStringLiteral("Not ruled yet")));
    EXPECT_TRUE(words.contains(QStringLiteral("licensed practice")));
    EXPECT_TRUE(words.contains(QStringLiteral("Already out: V1")));
}

TEST(Slip, GivesTheDepartureNotTheOriginal) {
    SmallRegister small;
    const QString words = wordsOf(small, SmallRegister::only(Kind::Slip, "D1"));
    EXPECT_TRUE(words.contains(QStringLiteral("1′-10″")));
    EXPECT_TRUE(words.contains(QStringLiteral("departure X1")));
}

TEST(Slip, GivesDecimalsWhereAFractionWouldEatTheAllowance) {
    SmallRegister small;
    small.built.ruling("k9", "d4", testsupport::RegisterBuilder::number(2.749));
    small.built.reg.rulings.back().tolerance = 0.002;
    const QString words = wordsOf(small, SmallRegister::only(Kind::Slip, "D4"));
    EXPECT_TRUE(words.contains(QStringLiteral("2.7490 in"))) << words.toStdString();
    EXPECT_FALSE(words.contains(QStringLiteral("2 3⁄4")));
}

TEST(ShopSheets, ShowFractionAllowanceGuessAndCaution) {
    SmallRegister small;
    const QString words = wordsOf(small, SmallRegister::only(Kind::Shop));
    for (const char* what : {"3′-7 5⁄16″", "allow ±\u00A01⁄16\u00A0in", "Rests on a guess",
                             "safety-critical", "licensed practice", "1′-10″"})
        EXPECT_TRUE(words.contains(QString::fromUtf8(what))) << what;
}

TEST(Filters, ThatNameNothingAreRefused) {
    using evidence::Code;
    const auto codeOf = [](const auto& change) {
        SmallRegister small;
        auto request = SmallRegister::provenance();
        change(request);
        const auto out = small.folder() / "refused.html";
        const auto written = small.tryWrite(out, request);
        EXPECT_FALSE(std::filesystem::exists(out));
        return written ? std::nullopt : std::optional(written.error().code);
    };
    EXPECT_EQ(codeOf([](auto& r) { r.filter.on = "D99"; }), Code::MissingTarget);
    EXPECT_EQ(codeOf([](auto& r) { r.filter.component = "Cellar"; }), Code::MissingTarget);
    EXPECT_EQ(codeOf([](auto& r) { r.filter.component = "Bod"; }), Code::MissingTarget);
    EXPECT_EQ(codeOf([](auto& r) { r.filter.state = "never"; }), Code::MissingTarget);
    EXPECT_EQ(codeOf([](auto& r) { r.filter.since = "yesterday"; }), Code::BadValue);
    EXPECT_EQ(codeOf([](auto& r) { r.filter.since = "I9"; }), Code::BadValue);
    EXPECT_EQ(codeOf([](auto& r) {
                  r.filter.component = "Brake";
                  r.filter.grade = evidence::record::Grade::InHand;
              }),
              Code::MissingTarget);
    EXPECT_EQ(codeOf([](auto& r) { r.kind = Kind::Slip; }), Code::WrongUse);
}

TEST(Filters, ShowWhatTheyNameAndNoMore) {
    SmallRegister small;
    auto request = SmallRegister::provenance();
    request.filter.component = "Body";
    const QString words = wordsOf(small, request);
    EXPECT_TRUE(words.contains(QStringLiteral("D5  Hoop rise")));
    EXPECT_FALSE(words.contains(QStringLiteral("D4  Axlebox bore")));
    EXPECT_TRUE(words.contains(QStringLiteral("component Body")));
}

TEST(Files, WithAnotherEndingAreRefused) {
    SmallRegister small;
    for (const char* name : {"report.doc", "report", "report.PDF"})
        EXPECT_FALSE(small.tryWrite(small.folder() / name, SmallRegister::provenance())) << name;
}

}  // namespace

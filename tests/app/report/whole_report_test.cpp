// The provenance report of a small register, as other programs read it.
#include "tests/app/report/read_back.h"
#include "tests/app/report/small_register.h"

#include <gtest/gtest.h>

namespace {

using tests::report::pressed;
using tests::report::SmallRegister;

// What a reviewer must find, whatever the format.
const char* const kSections[] = {"Summary",
                                 "What was asked, and how it was answered",
                                 "Where conjecture begins",
                                 "Conflicts and findings",
                                 "Departures",
                                 "Borrowed from relatives",
                                 "Handed out and made",
                                 "What was set aside, and why",
                                 "Part by part",
                                 "Scales",
                                 "Sources",
                                 "Method, in plain words",
                                 "Keeping and checking"};

// Code, name, value, call number of its source.
const char* const kContent[] = {"D1 Door width",
                                "1′-8″",
                                "CVR/D/47",
                                "D2 Window width",
                                "20.0",
                                "PH 218",
                                "D3 Brake lever",
                                "24.0",
                                "Rests on a guess",
                                "D4 Axlebox bore",
                                "2.749",
                                "1987.12",
                                "D5 Hoop rise",
                                "CVR/L/3",
                                "The drawing is the maker's own; the ledger is an inch out.",
                                "P1 Body colour",
                                "teal green",
                                "Nothing was found.",
                                "County Record Office",
                                "A rescuer must get in.",
                                "He spoke of another car.",
                                "Why not the ledger?",
                                "not cleared for printing",
                                "■ H",
                                "▲ T",
                                "× O",
                                "safety-critical"};

void expectContent(const QString& words, const SmallRegister& small) {
    const QString all = pressed(words);
    for (const char* section : kSections)
        EXPECT_TRUE(all.contains(pressed(QString::fromUtf8(section)))) << section;
    for (const char* what : kContent)
        EXPECT_TRUE(all.contains(pressed(QString::fromUtf8(what)))) << what;
    for (const auto& source : small.built.reg.sources)
        for (const auto& file : source.files)
            EXPECT_TRUE(all.contains(QString::fromStdString(*file.sha256))) << *file.sha256;
    EXPECT_TRUE(all.contains(QString(64, QLatin1Char('7')))) << "the register's digest";
    EXPECT_TRUE(all.contains(pressed(QStringLiteral("± is half the 95 % interval"))));
}

TEST(ProvenancePdf, IsSoundAndHoldsWhatAReviewerAsksFor) {
    SmallRegister small;
    const auto pdf = small.write(".pdf");
    EXPECT_EQ(tests::report::pdfComplaints(pdf).toStdString(), "");
    EXPECT_EQ(tests::report::wordsAstray(pdf).join(QLatin1Char(' ')).toStdString(), "");
    expectContent(tests::report::pdfWords(pdf), small);
}

TEST(ProvenanceHtml, IsWellFormedAndHoldsTheSame) {
    SmallRegister small;
    const auto read = tests::report::readHtml(small.write(".html"));
    EXPECT_EQ(read.complaint.toStdString(), "");
    expectContent(read.words, small);
}

TEST(ProvenanceHtml, FetchesNothingAndRunsNothing) {
    SmallRegister small;
    const auto read = tests::report::readHtml(small.write(".html"));
    EXPECT_EQ(read.forbidden.join(QLatin1Char(' ')).toStdString(), "");
    EXPECT_GT(read.pictures, 0);
}

TEST(ProvenanceHtml, EveryLinkArrives) {
    SmallRegister small;
    const auto read = tests::report::readHtml(small.write(".html"));
    QStringList ids = read.ids;
    EXPECT_EQ(ids.removeDuplicates(), 0);
    EXPECT_GT(read.targets.size(), 20);
    for (const QString& target : read.targets)
        EXPECT_TRUE(ids.contains(target)) << target.toStdString();
}

TEST(ProvenanceHtml, StoresAPictureOnceHoweverOftenItIsShown) {
    SmallRegister small;
    const int before = tests::report::readHtml(small.write(".html")).pictures;
    // A second dimension is measured by the very same mark.
    small.built.dimension("d6", "Door opening").component = "Body/Door";
    small.built.scaled("r9", "d6", "g1", "wanted1");
    EXPECT_EQ(tests::report::readHtml(small.write(".html")).pictures, before);
}

TEST(Report, TheSameRegisterGivesTheSameBytes) {
    for (const char* extension : {".pdf", ".html"}) {
        SmallRegister small;
        const auto once = small.write(extension);
        const auto again = small.write(extension);
        EXPECT_TRUE(test::readText(once) == test::readText(again)) << extension;
    }
}

}  // namespace

// A picture is printed only where its source says that it may be.
#include "tests/app/report/read_back.h"
#include "tests/app/report/small_register.h"

#include <gtest/gtest.h>

namespace {

using tests::report::pressed;
using tests::report::SmallRegister;

const QString kWithheld = QStringLiteral("not cleared for printing: outline only");

class Rights : public ::testing::TestWithParam<std::optional<bool>> {};

TEST_P(Rights, DecideWhetherPixelsAreRead) {
    SmallRegister small;
    for (auto& source : small.built.reg.sources) source.mayPrint = GetParam();
    const bool cleared = GetParam().value_or(false);
    const auto pdf = small.write(".pdf");
    const auto html = tests::report::readHtml(small.write(".html"));
    EXPECT_EQ(html.pictures > 0, cleared);
    EXPECT_EQ(tests::report::pdfPictures(pdf) > 0, cleared);
    EXPECT_EQ(small.asked["fs1"] > 0, cleared);
    EXPECT_EQ(small.asked["fs2"] > 0, cleared);
    EXPECT_EQ(html.words.contains(kWithheld), !cleared);
    EXPECT_EQ(pressed(tests::report::pdfWords(pdf)).contains(pressed(kWithheld)), !cleared);
}

INSTANTIATE_TEST_SUITE_P(MayPrint, Rights,
                         ::testing::Values(std::optional<bool>{}, std::optional<bool>{false},
                                           std::optional<bool>{true}),
                         [](const auto& given) {
                             return !given.param ? "Absent" : *given.param ? "Yes" : "No";
                         });

TEST(WithheldPictures, AreStillNamedAndCounted) {
    SmallRegister small;
    const QString words = tests::report::readHtml(small.write(".html")).words;
    EXPECT_EQ(small.asked.count("fs2"), 0U);
    EXPECT_TRUE(words.contains(QStringLiteral("PH 218")));
    EXPECT_TRUE(
        words.contains(QStringLiteral("Pictures of 1 of 2 sources are not cleared for printing")));
}

TEST(MissingOriginal, IsSaidWhereThePictureWouldStand) {
    SmallRegister small;
    std::filesystem::remove(small.folder() / "s1.png");
    const auto read = tests::report::readHtml(small.write(".html"));
    EXPECT_EQ(read.pictures, 0);
    EXPECT_TRUE(read.words.contains(QStringLiteral("outline only"))) << read.words.toStdString();
}

}  // namespace

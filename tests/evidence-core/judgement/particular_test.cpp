#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

namespace {

using namespace testsupport;
using record::Authority;
using record::Basis;
using record::SourceKind;

RegisterBuilder stays() {
    RegisterBuilder b;
    b.particular("q1", "Number of stays").kind = record::ParticularKind::Count;
    b.source("s1", "Letter", SourceKind::Text, Authority::Eyewitness);
    b.source("s2", "Photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.reading("r1", "q1", Basis::Stated, "s1", std::string("four"));
    return b;
}

TEST(Particular, ComparesTextWithCaseAndSpacesFolded) {
    auto b = stays();
    b.reading("r2", "q1", Basis::Stated, "s2", std::string(" Four "));
    const auto analysis = b.analyse();
    EXPECT_TRUE(analysis.particulars.at(0).agree);
    EXPECT_EQ(letterOf(analysis, "q1"), "H");
    EXPECT_EQ(analysis.particulars.at(0).origins, 2);
}

TEST(Particular, ShowsBothWhereTheBestSourcesDisagree) {
    auto b = stays();
    b.reading("r2", "q1", Basis::Stated, "s2", std::string("six"));
    const auto analysis = b.analyse();
    EXPECT_FALSE(analysis.particulars.at(0).agree);
    EXPECT_EQ(analysis.particulars.at(0).value, "four or six");
    EXPECT_EQ(letterOf(analysis, "q1"), "T");
    EXPECT_TRUE(findingOn(analysis, "particular-disagree", "q1"));
}

TEST(Particular, NamesEachSideWithItsOriginsAndWhoseWordItIs) {
    auto b = stays();
    b.source("s3", "Copy of the letter", SourceKind::Text, Authority::Later)
        .descends.push_back({.from = {"s1"}, .as = record::DescentKind::Copy});
    b.reading("r2", "q1", Basis::Stated, "s3", std::string("Four"));
    b.reading("r3", "q1", Basis::Stated, "s2", std::string("six"));
    const auto analysis = b.analyse();
    const auto* finding = findingOn(analysis, "particular-disagree", "q1");
    ASSERT_TRUE(finding);
    EXPECT_NE(finding->text.find("by an eyewitness"), std::string::npos) << finding->text;
    EXPECT_NE(finding->text.find("(1 origin)"), std::string::npos) << finding->text;
    EXPECT_NE(finding->text.find("against it"), std::string::npos) << finding->text;
}

TEST(Particular, KeepsTheBetterClassAndSaysThatAnotherDisagrees) {
    auto b = stays();
    b.source("s3", "Sister car", SourceKind::Part, Authority::Later);
    b.reading("r2", "q1", Basis::Analogous, "s3", std::string("six"));
    const auto analysis = b.analyse();
    EXPECT_EQ(analysis.particulars.at(0).value, "four");
    EXPECT_FALSE(analysis.particulars.at(0).agree);
}

TEST(Particular, TwoPrintsOfOneNegativeAreOneWitness) {
    auto b = stays();
    b.reg.readings.clear();
    auto& print = b.source("s3", "Cropped print", SourceKind::Text, Authority::Eyewitness);
    print.descends.push_back({.from = {"s2"}, .as = record::DescentKind::SameNegative});
    b.reading("r2", "q1", Basis::Stated, "s2", std::string("six"));
    b.reading("r3", "q1", Basis::Stated, "s3", std::string("six"));
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "q1"), "F");
    EXPECT_EQ(analysis.particulars.at(0).origins, 1);
}

TEST(Particular, IsBlankWhereNothingSpeaksOfIt) {
    RegisterBuilder b;
    b.particular("q1", "Lamp bracket");
    const auto analysis = b.analyse();
    EXPECT_EQ(letterOf(analysis, "q1"), "-");
    EXPECT_FALSE(analysis.particulars.at(0).value);
}

}  // namespace

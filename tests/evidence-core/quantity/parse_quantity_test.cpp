#include "evidence-core/quantity/parse_quantity.h"

#include "case_table.h"
#include "evidence-core/quantity/fraction.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <charconv>
#include <numbers>

namespace evidence::quantity {
namespace {

double fractionValue(const std::string& text) {
    const std::size_t slash = text.find('/');
    const auto number = [](std::string_view digits) {
        double value = 0.0;
        std::from_chars(digits.data(), digits.data() + digits.size(), value);
        return value;
    };
    if (slash == std::string::npos) return number(text);
    return number(text.substr(0, slash)) / number(text.substr(slash + 1));
}

Written length(std::string_view text, std::optional<Unit> bare = std::nullopt) {
    const Result<Written> read = parseQuantity(text, Measure::Length, bare);
    if (!read) {
        ADD_FAILURE() << text << ": " << read.error().place << ": " << read.error().help;
        return {};
    }
    return *read;
}

Refusal refusalOf(std::string_view text, Measure measure = Measure::Length,
                  std::optional<Unit> bare = Unit::Inch) {
    const Result<Written> read = parseQuantity(text, measure, bare);
    if (read) {
        ADD_FAILURE() << text << " was read as " << read->canonical;
        return {};
    }
    return read.error();
}

// Robustness cases 55-59 and 64: data/40_lengths.csv.
TEST(ParseQuantity, ReadsEveryCaseOfTheLengthTableExactlyAndRefusesTheRest) {
    int refused = 0;
    for (const auto& row : readCaseTable("40_lengths.csv")) {
        ASSERT_GE(row.size(), 2u);
        const Result<Written> read = parseQuantity(row[0], Measure::Length, std::nullopt);
        if (row[1].empty()) {
            ++refused;
            ASSERT_FALSE(read) << row[0] << " was read as " << read->canonical;
            EXPECT_NE(read.error().place.find("character "), std::string::npos);
            EXPECT_FALSE(read.error().help.empty());
        } else {
            ASSERT_TRUE(read) << row[0] << ": " << read.error().place << " " << read.error().help;
            EXPECT_EQ(read->canonical, fractionValue(row[1])) << row[0];
            EXPECT_EQ(read->text, row[0]);
            EXPECT_TRUE(read->unitWritten) << row[0];
        }
    }
    EXPECT_EQ(refused, 16);
}

TEST(ParseQuantity, BareNumberTakesTheUnitBesideTheField) {
    EXPECT_EQ(length("63 1/2", Unit::Inch).canonical, 63.5);
    EXPECT_EQ(length("10.", Unit::Inch).canonical, 10.0);
    EXPECT_EQ(length("254", Unit::Millimetre).canonical, 10.0);
    EXPECT_FALSE(length("254", Unit::Millimetre).unitWritten);
    EXPECT_EQ(refusalOf("63 1/2", Measure::Length, std::nullopt).code, Code::BadUnit);
}

TEST(ParseQuantity, ReadsFurtherSpellings) {
    EXPECT_EQ(length("5 ft 3½ in").canonical, 63.5);
    EXPECT_EQ(length("5 feet, 3 1/2 inches").canonical, 63.5);
    EXPECT_EQ(length("5' 3/4\"").canonical, 60.75);
    EXPECT_EQ(length("5'3").canonical, 63.0);
    EXPECT_EQ(length("3-1/2\"").canonical, 3.5);
    EXPECT_EQ(length("5′–3 7⁄16″").canonical, 63.4375);
    EXPECT_EQ(length("3 ⁷⁄₁₆ in").canonical, 3.4375);
    EXPECT_EQ(length("1605 mm").canonical, 1605.0 * 10 / 254);
    EXPECT_EQ(length("−3 in").canonical, -3.0);
    EXPECT_EQ(length("2 yd 1 ft 3 in").canonical, 87.0);
    EXPECT_EQ(length("12,345,678 mm").canonical, 12345678.0 * 10 / 254);
    EXPECT_FALSE(std::signbit(length("-0 in").canonical));
}

TEST(ParseQuantity, ReadsAnglesMassesAreasVolumesAndNumbers) {
    const double degree = std::numbers::pi / 180.0;
    EXPECT_DOUBLE_EQ(parseQuantity("12° 30'", Measure::Angle, Unit::Degree)->canonical,
                     12.5 * degree);
    EXPECT_DOUBLE_EQ(parseQuantity("12 deg 30 min 36″", Measure::Angle, {})->canonical,
                     12.51 * degree);
    EXPECT_EQ(parseQuantity("0.5 rad", Measure::Angle, Unit::Degree)->canonical, 0.5);
    EXPECT_DOUBLE_EQ(parseQuantity("2.5 kg", Measure::Mass, Unit::Pound)->canonical,
                     2.5 / 0.45359237);
    EXPECT_EQ(parseQuantity("2 lb 3 oz", Measure::Mass, Unit::Pound)->canonical, 2.1875);
    EXPECT_EQ(parseQuantity("40 1/2 sq. in.", Measure::Area, {})->canonical, 40.5);
    EXPECT_EQ(parseQuantity("2 ft²", Measure::Area, {})->canonical, 288.0);
    EXPECT_EQ(parseQuantity("16387.064 mm3", Measure::Volume, {})->canonical, 1.0);
    EXPECT_EQ(parseQuantity("12", Measure::Number, Unit::One)->canonical, 12.0);
    EXPECT_EQ(parseQuantity("0.3 %", Measure::Number, Unit::One)->canonical, 0.003);
}

TEST(ParseQuantity, ResolutionIsTheFinestStepWritten) {
    EXPECT_EQ(length("63 1/2 in").resolution, 0.5);
    EXPECT_EQ(length("5'-3 7/16\"").resolution, 1.0 / 16);
    EXPECT_EQ(length("5'-3\"").resolution, 1.0);
    EXPECT_EQ(length("12'").resolution, 12.0);
    EXPECT_EQ(length("6.250 in").resolution, 0.001);
    EXPECT_EQ(length("1605 mm").resolution, 10.0 / 254);
    EXPECT_EQ(length("1.5e3 mm").resolution, 1000.0 / 254);
    EXPECT_DOUBLE_EQ(parseQuantity("12° 30'", Measure::Angle, {})->resolution,
                     std::numbers::pi / 180 / 60);
}

TEST(ParseQuantity, ResolutionOfAJsonNumberIsItsLastWrittenDecimal) {
    EXPECT_EQ(resolutionOfNumber("56.50"), 0.01);
    EXPECT_EQ(resolutionOfNumber("56"), 1.0);
    EXPECT_EQ(resolutionOfNumber("-3.5"), 0.1);
    EXPECT_EQ(resolutionOfNumber("1.25e-2"), 0.0001);
}

TEST(ParseQuantity, KeepsAboutAndTheUnitWritten) {
    const Written about = length("about 9 ft");
    EXPECT_TRUE(about.approximate);
    EXPECT_EQ(about.canonical, 108.0);
    EXPECT_EQ(about.unit, Unit::Foot);
    EXPECT_EQ(about.resolution, 12.0);
    EXPECT_TRUE(length("c. 4 in").approximate);
    EXPECT_TRUE(length("~4 in").approximate);
    EXPECT_TRUE(length("Approx. 4 in").approximate);
    EXPECT_FALSE(length("4 in").approximate);
    EXPECT_EQ(length("5'-3\"").unit, Unit::Inch);
}

TEST(ParseQuantity, NamesThePlaceOfTheFault) {
    EXPECT_EQ(refusalOf("5'-3 l/2\"").place, "character 6");
    EXPECT_NE(refusalOf("5'-3 l/2\"").help.find("\"1\""), std::string::npos);
    EXPECT_EQ(refusalOf("S'-3\"").place, "character 1");
    EXPECT_EQ(refusalOf("5°3\"").place, "character 2");
    EXPECT_EQ(refusalOf("12\" × 8\"").place, "character 5");
    EXPECT_EQ(refusalOf("5'-13\"").place, "character 4");
    EXPECT_EQ(refusalOf("5' 3 1/0\"").place, "character 8");
    EXPECT_EQ(refusalOf("½½ in").place, "character 2");
}

TEST(ParseQuantity, RefusesWhatCanBeReadInTwoWays) {
    EXPECT_EQ(refusalOf("1,234 mm").code, Code::BadValue);
    EXPECT_EQ(refusalOf("3,5 mm").code, Code::BadValue);
    EXPECT_EQ(refusalOf("1.234,5 mm").code, Code::BadValue);
    EXPECT_EQ(refusalOf("5.10 ft").code, Code::BadValue);
    EXPECT_EQ(refusalOf("6-0-4").code, Code::BadValue);
    EXPECT_EQ(refusalOf("2 tons", Measure::Mass).code, Code::BadUnit);
    EXPECT_EQ(refusalOf("4 ± 1 in").code, Code::BadValue);
    EXPECT_EQ(refusalOf("5 ft 30 mm").code, Code::BadValue);
    EXPECT_EQ(refusalOf("6.5' 3\"").code, Code::BadValue);
    EXPECT_EQ(refusalOf("3 in mm").code, Code::BadValue);
}

TEST(ParseQuantity, RefusesOtherMeasuresAndHugeOrBrokenInput) {
    EXPECT_EQ(refusalOf("3 kg").code, Code::BadUnit);
    EXPECT_EQ(refusalOf("3%").code, Code::BadUnit);
    EXPECT_EQ(refusalOf("3'", Measure::Mass).code, Code::BadUnit);
    EXPECT_EQ(refusalOf("1e400 mm").code, Code::TooLarge);
    EXPECT_EQ(refusalOf("1e20 mm").code, Code::TooLarge);
    EXPECT_EQ(refusalOf(std::string(300, '1')).code, Code::TooLarge);
    EXPECT_EQ(refusalOf("∞").code, Code::NotFinite);
    EXPECT_EQ(refusalOf("\xff\xfe").code, Code::BadValue);
    EXPECT_EQ(refusalOf(std::string_view("3\0in", 4)).code, Code::BadValue);
}

RC_GTEST_PROP(ParseQuantityProperty, PrintedFractionReadsBackAsItself, ()) {
    const int power = *rc::gen::inRange(0, 8);
    const int smallest = 1 << power;
    const auto steps = *rc::gen::inRange<int>(-2'000'000, 2'000'000);
    const Inch exact = Inch::fromInches(static_cast<double>(steps) / smallest);
    for (const Typesetting type : {Typesetting::Plain, Typesetting::Typographic}) {
        for (const std::string& text :
             {feetInches(exact, smallest, type), inchFraction(exact, smallest, type)}) {
            const Result<Written> read = parseQuantity(text, Measure::Length, std::nullopt);
            RC_ASSERT(read.has_value());
            RC_ASSERT(read->canonical == exact.toInches());
        }
    }
}

RC_GTEST_PROP(ParseQuantityProperty, AnyBytesAreReadOrRefusedWithAPlace, ()) {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "5", "12", "0", "1/2", "½", "'", "\"", "-", " ", "in", "ft", "mm", ".", ",", "/", "°", "e9",
        "l", "~", "c.", "\xe2", "\x84", "±", "in2"));
    std::string text;
    for (const std::string& piece : pieces) text += piece;
    const Result<Written> read = parseQuantity(text, Measure::Length, Unit::Inch);
    if (read) {
        RC_ASSERT(std::isfinite(read->canonical));
        RC_ASSERT(read->resolution > 0.0);
        RC_ASSERT(read->text == text);
    } else {
        RC_ASSERT(read.error().place.starts_with("character "));
    }
}

}  // namespace
}  // namespace evidence::quantity

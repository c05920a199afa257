#include "evidence-core/quantity/unit.h"

#include "evidence-core/quantity/inch.h"
#include "evidence-core/quantity/pound.h"
#include "evidence-core/quantity/radian.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

namespace evidence::quantity {
namespace {

constexpr Ratio kMillimetre = kMillimetresPerInch.inverse();
constexpr Ratio kCentimetre = Ratio{10, 1} * kMillimetre;
constexpr Ratio kMetre = Ratio{1000, 1} * kMillimetre;
constexpr Ratio kKilogram = kKilogramsPerPound.inverse();

struct UnitRow {
    Unit unit;
    Measure measure;
    std::string_view name;
    Ratio factor;  // to the canonical unit; arc units: to the degree
};

constexpr std::array kUnits{
    UnitRow{Unit::Inch, Measure::Length, "in", {1, 1}},
    UnitRow{Unit::Foot, Measure::Length, "ft", {12, 1}},
    UnitRow{Unit::Yard, Measure::Length, "yd", {36, 1}},
    UnitRow{Unit::Millimetre, Measure::Length, "mm", kMillimetre},
    UnitRow{Unit::Centimetre, Measure::Length, "cm", kCentimetre},
    UnitRow{Unit::Metre, Measure::Length, "m", kMetre},
    UnitRow{Unit::Degree, Measure::Angle, "deg", {1, 1}},
    UnitRow{Unit::ArcMinute, Measure::Angle, "arcmin", {1, 60}},
    UnitRow{Unit::ArcSecond, Measure::Angle, "arcsec", {1, 3600}},
    UnitRow{Unit::Radian, Measure::Angle, "rad", {1, 1}},
    UnitRow{Unit::Pound, Measure::Mass, "lb", {1, 1}},
    UnitRow{Unit::Ounce, Measure::Mass, "oz", {1, 16}},
    UnitRow{Unit::Kilogram, Measure::Mass, "kg", kKilogram},
    UnitRow{Unit::Gram, Measure::Mass, "g", kKilogram* Ratio{1, 1000}},
    UnitRow{Unit::Tonne, Measure::Mass, "t", kKilogram* Ratio{1000, 1}},
    UnitRow{Unit::SquareInch, Measure::Area, "in2", {1, 1}},
    UnitRow{Unit::SquareFoot, Measure::Area, "ft2", {144, 1}},
    UnitRow{Unit::SquareMillimetre, Measure::Area, "mm2", kMillimetre* kMillimetre},
    UnitRow{Unit::SquareCentimetre, Measure::Area, "cm2", kCentimetre* kCentimetre},
    UnitRow{Unit::SquareMetre, Measure::Area, "m2", kMetre* kMetre},
    UnitRow{Unit::CubicInch, Measure::Volume, "in3", {1, 1}},
    UnitRow{Unit::CubicFoot, Measure::Volume, "ft3", {1728, 1}},
    UnitRow{Unit::CubicMillimetre, Measure::Volume, "mm3", kMillimetre* kMillimetre* kMillimetre},
    UnitRow{Unit::CubicCentimetre, Measure::Volume, "cm3", kCentimetre* kCentimetre* kCentimetre},
    UnitRow{Unit::CubicMetre, Measure::Volume, "m3", kMetre* kMetre* kMetre},
    UnitRow{Unit::Litre, Measure::Volume, "l",
            Ratio{1000, 1} * kCentimetre* kCentimetre* kCentimetre},
    UnitRow{Unit::One, Measure::Number, "1", {1, 1}},
    UnitRow{Unit::Percent, Measure::Number, "%", {1, 100}},
};

constexpr bool inOrder() {
    for (std::size_t i = 0; i < kUnits.size(); ++i) {
        if (static_cast<std::size_t>(kUnits[i].unit) != i) return false;
    }
    return true;
}
static_assert(inOrder(), "the rows stand in the order of the enumeration");

const UnitRow& row(Unit unit) {
    return kUnits.at(static_cast<std::size_t>(unit));
}

bool isArc(Unit unit) {
    return unit == Unit::Degree || unit == Unit::ArcMinute || unit == Unit::ArcSecond;
}

struct Spelling {
    std::string_view text;
    Unit unit;
};

// Lower case, full stops and '^' taken out, ² and ³ as figures, single spaces.
constexpr std::array kSpellings{
    Spelling{"inch", Unit::Inch},
    Spelling{"inches", Unit::Inch},
    Spelling{"ins", Unit::Inch},
    Spelling{"\"", Unit::Inch},
    Spelling{"″", Unit::Inch},
    Spelling{"foot", Unit::Foot},
    Spelling{"feet", Unit::Foot},
    Spelling{"'", Unit::Foot},
    Spelling{"′", Unit::Foot},
    Spelling{"yard", Unit::Yard},
    Spelling{"yards", Unit::Yard},
    Spelling{"yds", Unit::Yard},
    Spelling{"millimetre", Unit::Millimetre},
    Spelling{"millimetres", Unit::Millimetre},
    Spelling{"millimeter", Unit::Millimetre},
    Spelling{"millimeters", Unit::Millimetre},
    Spelling{"centimetre", Unit::Centimetre},
    Spelling{"centimetres", Unit::Centimetre},
    Spelling{"centimeter", Unit::Centimetre},
    Spelling{"centimeters", Unit::Centimetre},
    Spelling{"metre", Unit::Metre},
    Spelling{"metres", Unit::Metre},
    Spelling{"meter", Unit::Metre},
    Spelling{"meters", Unit::Metre},
    Spelling{"°", Unit::Degree},
    Spelling{"º", Unit::Degree},
    Spelling{"degree", Unit::Degree},
    Spelling{"degrees", Unit::Degree},
    Spelling{"min", Unit::ArcMinute},
    Spelling{"minutes", Unit::ArcMinute},
    Spelling{"sec", Unit::ArcSecond},
    Spelling{"seconds", Unit::ArcSecond},
    Spelling{"radian", Unit::Radian},
    Spelling{"radians", Unit::Radian},
    Spelling{"lbs", Unit::Pound},
    Spelling{"pound", Unit::Pound},
    Spelling{"pounds", Unit::Pound},
    Spelling{"ounce", Unit::Ounce},
    Spelling{"ounces", Unit::Ounce},
    Spelling{"ozs", Unit::Ounce},
    Spelling{"kilogram", Unit::Kilogram},
    Spelling{"kilograms", Unit::Kilogram},
    Spelling{"kilo", Unit::Kilogram},
    Spelling{"kilos", Unit::Kilogram},
    Spelling{"gram", Unit::Gram},
    Spelling{"grams", Unit::Gram},
    Spelling{"tonne", Unit::Tonne},
    Spelling{"tonnes", Unit::Tonne},
    Spelling{"sq in", Unit::SquareInch},
    Spelling{"sq inch", Unit::SquareInch},
    Spelling{"sq inches", Unit::SquareInch},
    Spelling{"square inch", Unit::SquareInch},
    Spelling{"square inches", Unit::SquareInch},
    Spelling{"sq ft", Unit::SquareFoot},
    Spelling{"square foot", Unit::SquareFoot},
    Spelling{"square feet", Unit::SquareFoot},
    Spelling{"sq mm", Unit::SquareMillimetre},
    Spelling{"sq cm", Unit::SquareCentimetre},
    Spelling{"sq m", Unit::SquareMetre},
    Spelling{"cu in", Unit::CubicInch},
    Spelling{"cu inch", Unit::CubicInch},
    Spelling{"cu inches", Unit::CubicInch},
    Spelling{"cubic inch", Unit::CubicInch},
    Spelling{"cubic inches", Unit::CubicInch},
    Spelling{"cu ft", Unit::CubicFoot},
    Spelling{"cubic foot", Unit::CubicFoot},
    Spelling{"cubic feet", Unit::CubicFoot},
    Spelling{"cc", Unit::CubicCentimetre},
    Spelling{"cu m", Unit::CubicMetre},
    Spelling{"litre", Unit::Litre},
    Spelling{"litres", Unit::Litre},
    Spelling{"liter", Unit::Litre},
    Spelling{"liters", Unit::Litre},
    Spelling{"percent", Unit::Percent},
    Spelling{"per cent", Unit::Percent},
};

std::string folded(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '.' || c == '^') {
            // "sq.in." reads as two words.
            if (c == '.' && !out.empty() && out.back() != ' ') out.push_back(' ');
        } else if (c == ' ' || c == '\t') {
            if (!out.empty() && out.back() != ' ') out.push_back(' ');
        } else if (text.substr(i, 2) == "²") {
            out.push_back('2');
            ++i;
        } else if (text.substr(i, 2) == "³") {
            out.push_back('3');
            ++i;
        } else {
            out.push_back(c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
        }
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string namesFor(Measure measure) {
    std::string names;
    for (const UnitRow& each : kUnits) {
        if (each.measure != measure) continue;
        if (!names.empty()) names += ", ";
        names += each.name;
    }
    return names;
}

std::string quoted(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

}  // namespace

std::string_view nameOf(Unit unit) {
    return row(unit).name;
}

std::string_view nameOf(Measure measure) {
    switch (measure) {
        case Measure::Length:
            return "length";
        case Measure::Angle:
            return "angle";
        case Measure::Mass:
            return "mass";
        case Measure::Area:
            return "area";
        case Measure::Volume:
            return "volume";
        case Measure::Number:
            break;
    }
    return "number";
}

Measure measureOf(Unit unit) {
    return row(unit).measure;
}

Unit canonicalUnit(Measure measure) {
    switch (measure) {
        case Measure::Length:
            return Unit::Inch;
        case Measure::Angle:
            return Unit::Radian;
        case Measure::Mass:
            return Unit::Pound;
        case Measure::Area:
            return Unit::SquareInch;
        case Measure::Volume:
            return Unit::CubicInch;
        case Measure::Number:
            break;
    }
    return Unit::One;
}

Ratio exactFactor(Unit unit) {
    return row(unit).factor;
}

double factorToCanonical(Unit unit) {
    const double factor = row(unit).factor.value();
    return isArc(unit) ? Radian::fromDegrees(factor).toRadians() : factor;
}

double toCanonical(double written, Unit unit) {
    const Ratio factor = row(unit).factor;
    // Multiplying before dividing rounds once where the factor is 1/n: 25.4 mm is exactly 1 in.
    const double scaled =
        written * static_cast<double>(factor.numerator) / static_cast<double>(factor.denominator);
    return isArc(unit) ? Radian::fromDegrees(scaled).toRadians() : scaled;
}

double fromCanonical(double canonical, Unit unit) {
    const Ratio factor = row(unit).factor;
    const double base = isArc(unit) ? Radian::fromRadians(canonical).toDegrees() : canonical;
    return base * static_cast<double>(factor.denominator) / static_cast<double>(factor.numerator);
}

Result<Unit> unitNamed(std::string_view text) {
    const std::string wanted = folded(text);
    const auto named = std::ranges::find(kUnits, std::string_view(wanted), &UnitRow::name);
    if (named != kUnits.end()) return named->unit;
    const auto spelt = std::ranges::find(kSpellings, std::string_view(wanted), &Spelling::text);
    if (spelt != kSpellings.end()) return spelt->unit;
    if (wanted == "ton" || wanted == "tons" || wanted == "cwt") {
        return refuse(Code::BadUnit, quoted(text),
                      "a ton or hundredweight may be long, short or metric: write pounds or "
                      "kilograms (2240 lb, 2000 lb or 1000 kg to the ton)");
    }
    return refuse(Code::BadUnit, quoted(text),
                  quoted(text) + " is no unit known here; lengths take " +
                      namesFor(Measure::Length) + ", angles " + namesFor(Measure::Angle) +
                      ", masses " + namesFor(Measure::Mass));
}

Result<Unit> unitNamed(std::string_view text, Measure expected) {
    Result<Unit> unit = unitNamed(text);
    if (!unit || measureOf(*unit) == expected) return unit;
    return refuse(Code::BadUnit, quoted(text),
                  quoted(text) + " measures " + std::string(nameOf(measureOf(*unit))) + ", not " +
                      std::string(nameOf(expected)) + "; write one of " + namesFor(expected));
}

}  // namespace evidence::quantity

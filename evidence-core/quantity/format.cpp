#include "evidence-core/quantity/format.h"

#include "evidence-core/quantity/significant.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evidence::quantity {
namespace {

bool isMetric(Unit length) {
    return length == Unit::Millimetre || length == Unit::Centimetre || length == Unit::Metre;
}

// Squares and cubes are raised where type is set.
std::string unitText(Unit unit, const Display& display) {
    if (unit == Unit::Degree) return "°";
    if (unit == Unit::One) return {};
    std::string text(nameOf(unit));
    if (display.type == Typesetting::Plain) return text;
    if (text.ends_with('2')) text.replace(text.size() - 1, 1, "²");
    if (text.ends_with('3')) text.replace(text.size() - 1, 1, "³");
    return text;
}

bool asFraction(Measure measure, const Display& display) {
    return measure == Measure::Length && display.style != LengthStyle::Decimal;
}

std::string fractionOf(double inches, int smallest, const Display& display) {
    const Inch length = Inch::fromInches(inches);
    return display.style == LengthStyle::FeetInches ? feetInches(length, smallest, display.type)
                                                    : inchFraction(length, smallest, display.type);
}

// The typographic minus where type is set.
std::string signedText(std::string text, const Display& display) {
    if (display.type == Typesetting::Typographic && text.starts_with('-')) text.replace(0, 1, "−");
    return text;
}

// Decimals beyond which a size without a spread of its own means nothing in a workshop.
int finestDecimals(Unit unit) {
    if (unit == Unit::Inch) return 4;
    if (unit == Unit::Millimetre || unit == Unit::SquareMillimetre || unit == Unit::CubicMillimetre)
        return 2;
    if (unit == Unit::Metre || unit == Unit::Foot) return 5;
    return unit == Unit::One ? 6 : 3;
}

std::string withoutTrailingZeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string joined(const std::string& number, const std::string& unit) {
    if (unit.empty()) return number;
    return unit == "°" ? number + unit : number + " " + unit;
}

}  // namespace

Unit displayUnit(Measure measure, const Display& display) {
    const bool metric = isMetric(display.lengthUnit);
    switch (measure) {
        case Measure::Length:
            return display.style == LengthStyle::Decimal ? display.lengthUnit : Unit::Inch;
        case Measure::Angle:
            return Unit::Degree;
        case Measure::Mass:
            return metric ? Unit::Kilogram : Unit::Pound;
        case Measure::Area:
            return display.lengthUnit == Unit::Millimetre   ? Unit::SquareMillimetre
                   : display.lengthUnit == Unit::Centimetre ? Unit::SquareCentimetre
                   : display.lengthUnit == Unit::Metre      ? Unit::SquareMetre
                                                            : Unit::SquareInch;
        case Measure::Volume:
            return display.lengthUnit == Unit::Millimetre   ? Unit::CubicMillimetre
                   : display.lengthUnit == Unit::Centimetre ? Unit::CubicCentimetre
                   : display.lengthUnit == Unit::Metre      ? Unit::CubicMetre
                                                            : Unit::CubicInch;
        case Measure::Number:
            break;
    }
    return Unit::One;
}

std::string ShownValue::text() const {
    if (spread.empty()) return joined(value, unit);
    return joined(value + " " + spread, unit);
}

std::string valueText(double canonical, Measure measure, const Display& display) {
    assert(std::isfinite(canonical));
    if (asFraction(measure, display))
        return fractionOf(canonical, display.smallestFraction, display);
    const Unit unit = displayUnit(measure, display);
    const std::string number =
        withoutTrailingZeros(decimalText(fromCanonical(canonical, unit), finestDecimals(unit)));
    return joined(signedText(number == "-0" ? "0" : number, display), unitText(unit, display));
}

int earnedFraction(double halfWidth, int smallest) {
    int denominator = 1;
    while (denominator * 2 <= smallest && 0.5 / denominator >= halfWidth / 10.0) denominator *= 2;
    return denominator;
}

ShownValue shownValue(double low95, double value, double high95, Measure measure,
                      const Display& display) {
    assert(std::isfinite(low95) && std::isfinite(high95) && std::isfinite(value));
    const Unit unit = displayUnit(measure, display);
    const double below = fromCanonical(std::max(0.0, value - low95), unit);
    const double above = fromCanonical(std::max(0.0, high95 - value), unit);
    const double widest = std::max(below, above);
    const bool fraction = asFraction(measure, display);
    ShownValue shown;
    if (widest > 0.0) {
        const int decimals = decimalsFor(widest, 2);
        const std::string plus = decimalText(above, decimals);
        const std::string minus = decimalText(below, decimals);
        shown.spread =
            plus == minus ? "± " + plus : "+" + plus + " " + signedText("-" + minus, display);
        shown.unit = unitText(unit, display);
        shown.value = signedText(decimalText(fromCanonical(value, unit), decimals), display);
    } else {
        shown.value = valueText(value, measure, display);
    }
    if (fraction) {
        const int earned = earnedFraction(widest, display.smallestFraction);
        shown.value = fractionOf(value, earned, display);
        shown.rounding = roundingNote(toShopFraction(Inch::fromInches(value), earned));
    }
    return shown;
}

std::string plusMinus(double low95, double value, double high95, Measure measure,
                      const Display& display) {
    return shownValue(low95, value, high95, measure, display).text();
}

std::string uText(double u, Measure measure, const Display& display) {
    assert(std::isfinite(u) && u >= 0.0);
    const Unit unit = displayUnit(measure, display);
    return joined(significantText(fromCanonical(u, unit), 2), unitText(unit, display));
}

std::string allowance(double tolerance, Measure measure, const Display& display) {
    if (asFraction(measure, display)) {
        const Inch wanted = Inch::fromInches(tolerance);
        const ShopFraction rounded = toShopFraction(wanted, display.smallestFraction);
        if (std::abs(rounded.rounding.toInches()) < 1e-9)
            return "allow ± " + inchFraction(wanted, display.smallestFraction, display.type);
    }
    const Unit unit = displayUnit(measure, display);
    const std::string number =
        withoutTrailingZeros(decimalText(fromCanonical(tolerance, unit), finestDecimals(unit)));
    return "allow ± " + joined(number, unitText(unit, display));
}

}  // namespace evidence::quantity

#include "evidence-core/quantity/fraction.h"

#include "evidence-core/quantity/significant.h"

#include <array>
#include <cassert>
#include <cmath>
#include <numeric>
#include <string_view>

namespace evidence::quantity {
namespace {

struct Glyph {
    int numerator;
    int denominator;
    std::string_view text;
};
// Binary fractions that fonts have as one character; all others are set with U+2044.
constexpr std::array kGlyphs{Glyph{1, 2, "½"}, Glyph{1, 4, "¼"}, Glyph{3, 4, "¾"}, Glyph{1, 8, "⅛"},
                             Glyph{3, 8, "⅜"}, Glyph{5, 8, "⅝"}, Glyph{7, 8, "⅞"}};

struct Marks {
    std::string_view foot;
    std::string_view inch;
    std::string_view minus;
};
Marks marksOf(Typesetting type) {
    if (type == Typesetting::Plain) return {"'", "\"", "-"};
    return {"′", "″", "−"};
}

// Whole inches and a fraction, neither signed: "7 5/16", "5/16", "0".
std::string mixed(std::int64_t whole, std::int64_t steps, int smallest, bool zeroInch,
                  Typesetting type) {
    if (steps == 0) return std::to_string(whole);
    const std::string fraction = fractionText(steps, smallest, type);
    if (whole == 0 && !zeroInch) return fraction;
    // ½ stands close to its whole number; 7⁄16 needs the space like 7/16, or 3 7⁄16 reads 37⁄16.
    const bool oneGlyph =
        type == Typesetting::Typographic && fraction.find("⁄") == std::string::npos;
    return std::to_string(whole) + (oneGlyph ? "" : " ") + fraction;
}

}  // namespace

ShopFraction toShopFraction(Inch length, int smallest) {
    assert(smallest >= 1 && smallest <= 1024);
    assert(std::abs(length.toInches()) < 1e12);
    // Under the default rounding mode nearbyint sends ties to even; scaling by a power of two is
    // exact, so a tie is met exactly.
    const double steps = std::nearbyint(length.toInches() * smallest);
    ShopFraction rounded{static_cast<std::int64_t>(steps), smallest, {}};
    rounded.rounding = rounded.written() - length;
    return rounded;
}

std::string fractionText(std::int64_t numerator, std::int64_t denominator, Typesetting type) {
    const std::int64_t common = std::gcd(numerator, denominator);
    const std::int64_t above = numerator / common;
    const std::int64_t below = denominator / common;
    if (type == Typesetting::Plain) return std::to_string(above) + "/" + std::to_string(below);
    for (const Glyph& glyph : kGlyphs) {
        if (glyph.numerator == above && glyph.denominator == below) return std::string(glyph.text);
    }
    return std::to_string(above) + "⁄" + std::to_string(below);
}

std::string feetInches(Inch length, int smallest, Typesetting type) {
    const ShopFraction rounded = toShopFraction(length, smallest);
    const Marks marks = marksOf(type);
    const std::int64_t steps = std::abs(rounded.steps);
    const std::int64_t perFoot = 12 * static_cast<std::int64_t>(smallest);
    const std::int64_t inches = steps % perFoot / smallest;
    std::string text(rounded.steps < 0 ? marks.minus : "");
    text += std::to_string(steps / perFoot);
    text += marks.foot;
    text += "-";
    text += mixed(inches, steps % smallest, smallest, true, type);
    text += marks.inch;
    return text;
}

std::string inchFraction(Inch length, int smallest, Typesetting type) {
    const ShopFraction rounded = toShopFraction(length, smallest);
    const Marks marks = marksOf(type);
    const std::int64_t steps = std::abs(rounded.steps);
    std::string text(rounded.steps < 0 ? marks.minus : "");
    text += mixed(steps / smallest, steps % smallest, smallest, false, type);
    text += marks.inch;
    return text;
}

std::string roundingNote(const ShopFraction& fraction) {
    const double by = fraction.rounding.toInches();
    if (std::abs(by) < 1e-9) return "exact";
    return std::string("rounded by ") + (by > 0 ? "+" : "") + significantText(by, 2) + " in";
}

}  // namespace evidence::quantity

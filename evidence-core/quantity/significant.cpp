#include "evidence-core/quantity/significant.h"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstddef>

namespace evidence::quantity {
namespace {

// Decimal exponent of `value` after rounding to so many digits: 9.96 with 2 digits is 10, so 1.
int exponentAfterRounding(double value, int digits) {
    const std::string text = fmt::format("{:.{}e}", std::abs(value), digits - 1);
    const std::size_t e = text.find('e');
    const std::size_t first = e + (text[e + 1] == '+' ? 2 : 1);
    int exponent = 0;
    std::from_chars(text.data() + first, text.data() + text.size(), exponent);
    return exponent;
}

bool isZero(const std::string& text) {
    return text.find_first_not_of("-0.") == std::string::npos;
}

}  // namespace

double toTwelveDigits(double value) {
    assert(std::isfinite(value));
    std::array<char, 40> text{};
    const auto written = std::to_chars(text.data(), text.data() + text.size(), value,
                                       std::chars_format::scientific, 11);
    double rounded = 0.0;
    std::from_chars(text.data(), written.ptr, rounded);
    return rounded + 0.0;
}

int decimalsFor(double spread, int digits) {
    assert(std::isfinite(spread) && spread != 0.0 && digits >= 1);
    return digits - 1 - exponentAfterRounding(spread, digits);
}

std::string decimalText(double value, int decimals) {
    assert(std::isfinite(value));
    if (decimals < 0) {
        // Through the decimal text, not through a division: 250 to hundreds must tie exactly.
        const int exponent = exponentAfterRounding(value, 17);
        const int digits = exponent + 1 + decimals;
        if (digits < 1) {
            const double place = std::pow(10.0, -decimals);
            return fmt::format("{:.0f}", std::nearbyint(value / place) * place + 0.0);
        }
        std::string text = fmt::format("{:.{}e}", value, digits - 1);
        double rounded = 0.0;
        std::from_chars(text.data(), text.data() + text.size(), rounded);
        return fmt::format("{:.0f}", rounded + 0.0);
    }
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (isZero(text) && text.front() == '-') text.erase(0, 1);
    return text;
}

std::string significantText(double value, int digits) {
    if (value == 0.0) return "0";
    return decimalText(value, decimalsFor(value, digits));
}

}  // namespace evidence::quantity

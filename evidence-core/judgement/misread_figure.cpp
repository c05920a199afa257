#include "evidence-core/judgement/misread_figure.h"

#include "evidence-core/quantity/parse_quantity.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

namespace evidence::judgement {

namespace {

bool isDigit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

/// Figures that hands and old ink confuse.
constexpr std::array<std::pair<char, char>, 4> kConfused{
    {{'6', '9'}, {'3', '8'}, {'1', '7'}, {'0', '6'}}};

std::vector<std::string> swapped(const std::string& text) {
    std::vector<std::string> others;
    for (std::size_t i = 0; i + 1 < text.size(); ++i)
        if (isDigit(text[i]) && isDigit(text[i + 1]) && text[i] != text[i + 1]) {
            std::string other = text;
            std::swap(other[i], other[i + 1]);
            others.push_back(other);
        }
    return others;
}

std::vector<std::string> misread(const std::string& text) {
    std::vector<std::string> others;
    for (std::size_t i = 0; i < text.size(); ++i)
        for (const auto& [a, b] : kConfused)
            if (text[i] == a || text[i] == b) {
                std::string other = text;
                other[i] = text[i] == a ? b : a;
                others.push_back(other);
            }
    // Above the line of a fraction 3 and 5 look alike too: 3/8 for 5/8, 5/16 for 3/16.
    for (std::size_t i = 0; i + 1 < text.size(); ++i)
        if ((text[i] == '3' || text[i] == '5') && text[i + 1] == '/' &&
            (i == 0 || !isDigit(text[i - 1]))) {
            std::string other = text;
            other[i] = text[i] == '3' ? '5' : '3';
            others.push_back(other);
        }
    return others;
}

/// Offset tables write feet-inches-eighths: 6-0-4 is 6 ft 0 4/8 in. Taken for decimals it becomes
/// 6 ft 0.4 in, taken for feet and inches 6 ft 4 in.
std::vector<OtherFigure> inEighths(const std::string& text, double inches) {
    const bool decimal = text.find('.') != std::string::npos;
    const bool inFeet =
        text.find('\'') != std::string::npos || text.find("ft") != std::string::npos;
    if (!(inches >= 12) || inches > 12000 || (!decimal && !inFeet)) return {};
    const double feet = std::floor(inches / 12);
    const double rest = inches - 12 * feet;
    const double whole = decimal ? std::floor(rest + 1e-9) : 0;
    const double eighths = decimal ? (rest - whole) * 10 : rest;
    if (std::abs(eighths - std::round(eighths)) > 1e-6) return {};
    const int count = static_cast<int>(std::round(eighths));
    if (count < 1 || count > 7) return {};
    std::string shown = std::to_string(static_cast<int>(feet)) + "'-" +
                        std::to_string(static_cast<int>(whole)) + " " + std::to_string(count) +
                        "/8\"";
    return {{std::move(shown), 12 * feet + whole + count / 8.0}};
}

}  // namespace

std::vector<MisreadFamily> misreadFigures(const std::string& written, quantity::Measure measure,
                                          std::optional<quantity::Unit> bareUnit) {
    const auto read = quantity::parseQuantity(written, measure, bareUnit);
    if (!read) return {};
    const auto family = [&](const char* sign, const char* test,
                            const std::vector<std::string>& texts) {
        MisreadFamily made{sign, test, read->canonical, {}};
        for (const auto& text : texts)
            if (const auto other = quantity::parseQuantity(text, measure, bareUnit);
                other && other->canonical != read->canonical)
                made.readings.push_back({text, other->canonical});
        return made;
    };
    std::vector<MisreadFamily> families;
    families.push_back(family("swapped-digits",
                              "Read the figure again on the original, blind to the other one.",
                              swapped(written)));
    families.push_back(family("misread-figure",
                              "Enlarge the figure and ask a second reader who has not seen this.",
                              misread(written)));
    if (measure == quantity::Measure::Length)
        families.push_back({"eighths", "Look at the heading of the table: feet, inches, eighths?",
                            read->canonical, inEighths(written, read->canonical)});
    std::erase_if(families, [](const MisreadFamily& f) { return f.readings.empty(); });
    return families;
}

}  // namespace evidence::judgement

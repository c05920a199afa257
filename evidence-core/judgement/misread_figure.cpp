#include "evidence-core/judgement/misread_figure.h"

#include "evidence-core/quantity/parse_quantity.h"

#include <algorithm>
#include <array>
#include <cctype>

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
    for (const auto& [from, to] : {std::pair{"3/16", "5/16"}, std::pair{"5/16", "3/16"}})
        if (const auto at = text.find(from);
            at != std::string::npos && (at == 0 || !isDigit(text[at - 1]))) {
            std::string other = text;
            other.replace(at, 4, to);
            others.push_back(other);
        }
    return others;
}

/// Offset tables write feet-inches-eighths: "6-0-4".
std::vector<OtherFigure> inEighths(const std::string& text) {
    std::array<int, 3> parts{};
    std::size_t part = 0;
    bool any = false;
    for (const char c : text) {
        if (isDigit(c)) {
            parts[part] = parts[part] * 10 + (c - '0');
            any = true;
            if (parts[part] > 999) return {};
        } else if (c == '-' && any && part < 2) {
            ++part;
            any = false;
        } else if (c != ' ') {
            return {};
        }
    }
    if (part != 2 || !any || parts[1] > 11 || parts[2] > 7) return {};
    std::string shown = std::to_string(parts[0]) + "'-" + std::to_string(parts[1]) + " " +
                        std::to_string(parts[2]) + "/8\"";
    return {{std::move(shown), parts[0] * 12 + parts[1] + parts[2] / 8.0}};
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
                            read->canonical, inEighths(written)});
    std::erase_if(families, [](const MisreadFamily& f) { return f.readings.empty(); });
    return families;
}

}  // namespace evidence::judgement

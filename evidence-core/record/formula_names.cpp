#include "evidence-core/record/formula_names.h"

#include <algorithm>
#include <array>

namespace evidence::record {

namespace {

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}
bool startsName(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool continuesName(char c) {
    return startsName(c) || isDigit(c) || c == '.';
}

/// Words of the formula language; a code of that spelling is written in [brackets].
bool isReserved(std::string_view word) {
    static constexpr std::array<std::string_view, 12> kWords{
        "sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "min", "max", "abs", "pi"};
    return std::ranges::find(kWords, word) != kWords.end();
}
bool needsBrackets(std::string_view code) {
    return isReserved(code) || code.empty() || !startsName(code.front()) ||
           !std::ranges::all_of(code, continuesName);
}

/// Past a number as formulas write them: `2`, `0.5`, `1e-3`.
std::size_t afterNumber(std::string_view text, std::size_t at) {
    while (at < text.size() && (isDigit(text[at]) || text[at] == '.')) ++at;
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        std::size_t digits = at + 1;
        if (digits < text.size() && (text[digits] == '+' || text[digits] == '-')) ++digits;
        if (digits < text.size() && isDigit(text[digits])) {
            at = digits;
            while (at < text.size() && isDigit(text[at])) ++at;
        }
    }
    return at;
}

std::string braced(std::string_view id) {
    std::string text = "{";
    for (const char c : id) {
        switch (c) {
            case '%':
                text += "%25";
                break;
            case '{':
                text += "%7B";
                break;
            case '}':
                text += "%7D";
                break;
            default:
                text += c;
        }
    }
    return text + '}';
}

std::string unbraced(std::string_view inside) {
    std::string id;
    for (std::size_t i = 0; i < inside.size(); ++i) {
        const std::string_view three = inside.substr(i, 3);
        if (three == "%25" || three == "%7B" || three == "%7D") {
            id += three == "%25" ? '%' : (three == "%7B" ? '{' : '}');
            i += 2;
        } else {
            id += inside[i];
        }
    }
    return id;
}

}  // namespace

std::string formulaById(std::string_view withCodes, const NameMap& idOfCode) {
    std::string text;
    bool afterANumber = false;  // there a word is a unit
    for (std::size_t at = 0; at < withCodes.size();) {
        const char c = withCodes[at];
        std::size_t end = at + 1;
        std::optional<std::string> id;
        if (isDigit(c)) {
            end = afterNumber(withCodes, at);
        } else if (c == '[' && withCodes.find(']', at) != std::string_view::npos) {
            end = withCodes.find(']', at) + 1;
            id = idOfCode(withCodes.substr(at + 1, end - at - 2));
        } else if (startsName(c)) {
            while (end < withCodes.size() && continuesName(withCodes[end])) ++end;
            const auto word = withCodes.substr(at, end - at);
            if (!afterANumber && !isReserved(word)) id = idOfCode(word);
        }
        if (c != ' ') afterANumber = isDigit(c);
        text += id ? braced(*id) : std::string(withCodes.substr(at, end - at));
        at = end;
    }
    return text;
}

std::string formulaByCode(std::string_view withIds, const NameMap& codeOfId) {
    std::string text;
    for (std::size_t at = 0; at < withIds.size();) {
        const std::size_t close =
            withIds[at] == '{' ? withIds.find('}', at) : std::string_view::npos;
        if (close == std::string_view::npos) {
            text += withIds[at++];
            continue;
        }
        const auto code = codeOfId(unbraced(withIds.substr(at + 1, close - at - 1)));
        if (!code)
            text += withIds.substr(at, close - at + 1);
        else
            text += needsBrackets(*code) ? '[' + *code + ']' : *code;
        at = close + 1;
    }
    return text;
}

}  // namespace evidence::record

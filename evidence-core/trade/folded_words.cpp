#include "evidence-core/trade/folded_words.h"

#include <array>
#include <cctype>
#include <utility>

namespace evidence::trade {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 24> kPlain{
    {{"½", " 1/2"}, {"¼", " 1/4"}, {"¾", " 3/4"}, {"⅛", " 1/8"}, {"⅜", " 3/8"},   {"⅝", " 5/8"},
     {"⅞", " 7/8"}, {"⅓", " 1/3"}, {"⅔", " 2/3"}, {"⁄", "/"},    {"×", " x "},    {"″", "\""},
     {"”", "\""},   {"“", "\""},   {"′", "'"},    {"’", "'"},    {"‐", "-"},      {"‑", "-"},
     {"–", "-"},    {"—", "-"},    {"−", "-"},    {"№", "no "},  {"\u00a0", " "}, {"\u202f", " "}}};

bool isWord(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || std::isalnum(byte) != 0;
}

}  // namespace

std::string folded(std::string_view text) {
    std::string out;
    const auto add = [&](char c) {
        const bool space = c == ' ' || c == '\t' || c == '\n';
        if (space && (out.empty() || out.back() == ' ')) return;
        out += space ? ' ' : (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    };
    for (std::size_t i = 0; i < text.size();) {
        std::size_t taken = 0;
        for (const auto& [typographic, plain] : kPlain) {
            if (!text.substr(i).starts_with(typographic)) continue;
            for (const char c : plain) add(c);
            taken = typographic.size();
            break;
        }
        if (taken == 0) add(text[i]);
        i += taken == 0 ? 1 : taken;
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::vector<std::string> parts(std::string_view text, char separator) {
    std::vector<std::string> found;
    while (!text.empty()) {
        const std::size_t end = text.find(separator);
        std::string_view part = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        while (part.starts_with(' ')) part.remove_prefix(1);
        while (part.ends_with(' ')) part.remove_suffix(1);
        if (!part.empty()) found.emplace_back(part);
    }
    return found;
}

bool holdsWords(std::string_view text, std::string_view words) {
    for (auto at = text.find(words); at != std::string_view::npos; at = text.find(words, at + 1)) {
        const std::size_t end = at + words.size();
        const bool begins = at == 0 || !isWord(text[at - 1]) || !isWord(words.front());
        const bool ends = end == text.size() || !isWord(text[end]) || !isWord(words.back());
        if (begins && ends) return true;
    }
    return false;
}

}  // namespace evidence::trade

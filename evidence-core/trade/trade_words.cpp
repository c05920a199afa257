#include "evidence-core/trade/folded_words.h"
#include "evidence-core/trade/trade.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

namespace evidence::trade {

namespace {

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// A number as sizes are named: "16", "4/0", "3/8", "1 1/2", "2.5".
struct SizeNumber {
    std::string text;
    double value = 0;
    std::size_t end = 0;  ///< behind it
};

double valueOf(std::string_view digits) {
    double value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

std::size_t pastDigits(std::string_view text, std::size_t at) {
    while (at < text.size() && isDigit(text[at])) ++at;
    return at;
}

/// A fraction that begins at `at`: behind its end, and its value.
std::optional<std::pair<std::size_t, double>> fractionAt(std::string_view text, std::size_t at) {
    const std::size_t stroke = pastDigits(text, at);
    if (stroke == at || stroke >= text.size() || text[stroke] != '/') return std::nullopt;
    const std::size_t end = pastDigits(text, stroke + 1);
    const double below = valueOf(text.substr(stroke + 1, end - stroke - 1));
    if (!(below > 0)) return std::nullopt;
    return std::pair{end, valueOf(text.substr(at, stroke - at)) / below};
}

SizeNumber numberAt(std::string_view text, std::size_t at) {
    if (const auto fraction = fractionAt(text, at))
        return {std::string(text.substr(at, fraction->first - at)), fraction->second,
                fraction->first};
    const std::size_t whole = pastDigits(text, at);
    const std::string_view digits = text.substr(at, whole - at);
    // 0000 and 4/0 are one gauge.
    if (digits.size() > 1 && digits.find_first_not_of('0') == std::string_view::npos)
        return {fmt::format("{}/0", digits.size()), 0, whole};
    if (text.substr(whole).starts_with("/0")) return {std::string(digits) + "/0", 0, whole + 2};
    if (whole < text.size() && text[whole] == '.' && pastDigits(text, whole + 1) > whole + 1) {
        const std::size_t end = pastDigits(text, whole + 1);
        return {std::string(text.substr(at, end - at)), valueOf(text.substr(at, end - at)), end};
    }
    if (whole < text.size() && (text[whole] == ' ' || text[whole] == '-'))
        if (const auto fraction = fractionAt(text, whole + 1))
            return {
                fmt::format("{} {}", digits, text.substr(whole + 1, fraction->first - whole - 1)),
                valueOf(digits) + fraction->second, fraction->first};
    return {std::string(digits), valueOf(digits), whole};
}

/// The sizes that words can name.
struct SizesNamed {
    std::vector<std::string> sizes;
    std::string wide;  ///< the wider of two, as lumber calls it; empty where there is one number
};

SizesNamed sizesIn(std::string_view text) {
    std::vector<SizeNumber> numbers;
    for (std::size_t at = 0; at < text.size() && numbers.size() < 2;) {
        if (!isDigit(text[at])) {
            ++at;
            continue;
        }
        numbers.push_back(numberAt(text, at));
        at = numbers.back().end;
        if (numbers.size() > 1) break;
        // A second number belongs to the size only behind "x" or "by".
        std::size_t next = at;
        for (const std::string_view skipped : {" ", "inches", "inch", "in", "\"", " "})
            if (text.substr(next).starts_with(skipped)) next += skipped.size();
        if (text.substr(next).starts_with("by "))
            next += 2;
        else if (text.substr(next).starts_with("x"))
            next += 1;
        else
            break;
        while (next < text.size() && text[next] == ' ') ++next;
        if (next >= text.size() || !isDigit(text[next])) break;
        at = next;
    }
    SizesNamed named;
    if (numbers.empty()) return named;
    if (numbers.size() == 1) {
        named.sizes = {numbers[0].text};
        return named;
    }
    const auto& [thin, wide] = std::minmax(
        numbers[0], numbers[1], [](const auto& a, const auto& b) { return a.value < b.value; });
    named.wide = wide.text + " wide";
    named.sizes = {numbers[0].text + " x " + numbers[1].text, thin.text + " thick", named.wide};
    return named;
}

/// "#8" and "No.8" as "no 8", "16ga" as "16 ga".
std::string spaced(std::string_view words) {
    std::string out;
    const std::string text = folded(words);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '#') {
            out += "no ";
            continue;
        }
        if (i > 0 && c >= 'a' && c <= 'z' && isDigit(text[i - 1])) out += ' ';
        // The stop of an abbreviation: "b.w.g.", "no."; that of a decimal stays.
        const bool inNumber =
            i > 0 && isDigit(text[i - 1]) && i + 1 < text.size() && isDigit(text[i + 1]);
        if (c != '.' || inNumber) out += c;
    }
    return out;
}

bool saysOneOf(std::string_view text, const std::vector<std::string>& saidAs) {
    return std::ranges::any_of(saidAs, [&](const auto& said) { return holdsWords(text, said); });
}

bool sharesKind(const System& system, const std::vector<std::string>& kinds) {
    return std::ranges::any_of(system.kinds, [&](const auto& kind) {
        return std::ranges::find(kinds, kind) != kinds.end();
    });
}

std::vector<std::string> kindsSaid(const Tables& tables, std::string_view text, bool twoNumbers) {
    std::vector<std::string> kinds;
    for (const auto& kind : tables.kinds())
        if (saysOneOf(text, kind.saidAs)) kinds.push_back(kind.kind);
    if (!kinds.empty()) return kinds;
    if (twoNumbers) return {"lumber", "tyre", "plate", "paper"};
    // A bare "No. 8" is a screw or a gauge.
    if (text.starts_with("no ")) return {"gauge", "screw"};
    return {};
}

std::vector<const System*> systemsMeant(const Tables& tables, std::string_view text,
                                        const std::vector<std::string>& kinds, bool& named) {
    std::vector<const System*> meant;
    std::vector<const System*> byName;
    for (const auto& system : tables.systems()) {
        // Heads and nuts are sizes of their own: "3/8 Whit" alone is the thread.
        const bool possible =
            kinds.empty() ? system.kinds.front() != "head" : sharesKind(system, kinds);
        if (!possible) continue;
        meant.push_back(&system);
        if (saysOneOf(text, system.saidAs)) byName.push_back(&system);
    }
    named = !byName.empty();
    if (named) return byName;
    return kinds.empty() ? std::vector<const System*>{} : meant;
}

Meaning meaningOf(const System& system, const Tables& tables, const SizesNamed& named) {
    Meaning meaning{&system, {}, true, true};
    bool wideThere = named.wide.empty();
    const bool bySides = std::ranges::find(system.kinds, "lumber") != system.kinds.end();
    for (const auto& row : tables.rows()) {
        if (row.system != system.id ||
            std::ranges::find(named.sizes, row.size) == named.sizes.end())
            continue;
        meaning.rows.push_back(&row);
        wideThere = wideThere || row.size == named.wide;
    }
    // Of "26 x 3" lumber has a thickness, but no such plank.
    if (bySides && !wideThere) meaning.rows.clear();
    return meaning;
}

}  // namespace

TradeWords tradeWords(const Tables& tables, std::string_view words, const Question& where) {
    TradeWords read{std::string(words), {}, {}};
    const std::string text = spaced(words);
    const auto sizes = sizesIn(text);
    if (sizes.sizes.empty()) return read;
    const auto kinds = kindsSaid(tables, text, !sizes.wide.empty());
    const auto places = placesIn(where.region);
    for (const auto* system : systemsMeant(tables, text, kinds, read.named)) {
        auto meaning = meaningOf(*system, tables, sizes);
        if (meaning.rows.empty()) continue;
        meaning.fitsEra = std::ranges::any_of(
            meaning.rows, [&](const Row* row) { return erasMeet(row->era, where.era); });
        meaning.fitsRegion = std::ranges::any_of(
            meaning.rows, [&](const Row* row) { return overlap(row->places, places); });
        read.meanings.push_back(std::move(meaning));
    }
    std::ranges::stable_sort(read.meanings, [](const Meaning& a, const Meaning& b) {
        return a.fitsEra && a.fitsRegion && !(b.fitsEra && b.fitsRegion);
    });
    if (!read.meanings.empty() && !read.settled())
        read.question = read.meanings.size() == 1
                            ? fmt::format("Is \"{}\" meant by this system?", words)
                            : fmt::format("\"{}\" has {} meanings here: which system was meant?",
                                          words, read.meanings.size());
    return read;
}

}  // namespace evidence::trade

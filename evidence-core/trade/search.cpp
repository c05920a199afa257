#include "evidence-core/trade/folded_words.h"
#include "evidence-core/trade/trade.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::trade {

namespace {

constexpr int kApproximateDays = 3652;  // ten years

enum class Extent { Beginning, Whole };

bool isLetterOrDigit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// `word` is the beginning of a word of `text`, or a whole one. A figure is none of a fraction or
/// a decimal: "16" is not meant by "1/16", nor "6" by "0.6".
bool standsIn(std::string_view text, std::string_view word, Extent extent) {
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const char before = at == 0 ? ' ' : text[at - 1];
        if (isLetterOrDigit(before) || before == '/' || before == '.' || before == '_') continue;
        const std::size_t end = at + word.size();
        const char after = end < text.size() ? text[end] : ' ';
        if (extent == Extent::Beginning || (!isLetterOrDigit(after) && after != '/')) return true;
    }
    return false;
}

/// How well the words fit: what stands in the name counts most; none: one of them is nowhere.
std::optional<int> fitOf(const Row& row, const Tables& tables,
                         const std::vector<std::string>& words) {
    const auto* system = tables.system(row.system);
    const std::string name = folded(row.name);
    std::string all =
        folded(fmt::format("{} {} {} {} {} {} {}", row.id, row.measures, row.source, row.region,
                           row.note, row.table, record::nameOf(row.kind)));
    if (system)
        for (const auto& said : system->saidAs) all += " " + said;
    int fit = 0;
    for (const auto& word : words) {
        // A figure is meant as it stands: "2" is not the beginning of "20".
        const bool figure = word.front() >= '0' && word.front() <= '9';
        const auto extent = figure ? Extent::Whole : Extent::Beginning;
        if (standsIn(name, word, Extent::Whole))
            fit += 4;
        else if (standsIn(name, word, extent))
            fit += 3;
        else if (standsIn(all, word, extent))
            fit += 1;
        else
            return std::nullopt;
    }
    return fit;
}

}  // namespace

bool erasMeet(const std::optional<quantity::EdtfDate>& a,
              const std::optional<quantity::EdtfDate>& b) {
    if (!a || !b) return true;
    int slack = 0;
    for (const auto* date : {&*a, &*b})
        if (date->approximate || date->uncertain) slack += kApproximateDays;
    const auto after = [&](const quantity::EdtfDate& later, const quantity::EdtfDate& earlier) {
        return later.earliest && earlier.latest && *later.earliest > *earlier.latest + slack;
    };
    return !after(*a, *b) && !after(*b, *a);
}

Result<std::vector<FoundRow>> search(const Tables& tables, const Question& question) {
    const std::string region = folded(question.region);
    const auto places = placesIn(region);
    if (!region.empty() && places.empty())
        return refuse(Code::BadValue, "region",
                      fmt::format("\"{}\" names no place known here; known are {}", question.region,
                                  allPlaces()));
    struct Ranked {
        FoundRow found;
        int fit;
    };
    std::vector<Ranked> ranked;
    const auto words = parts(folded(question.words), ' ');
    for (const auto& row : tables.rows()) {
        if (question.kind && row.kind != *question.kind) continue;
        const auto fit = fitOf(row, tables, words);
        if (!fit) continue;
        ranked.push_back(
            {{&row, erasMeet(row.era, question.era), overlap(row.places, places)}, *fit});
    }
    std::ranges::stable_sort(ranked, [](const Ranked& a, const Ranked& b) {
        if (a.found.fits() != b.found.fits()) return a.found.fits();
        return a.fit > b.fit;
    });
    std::vector<FoundRow> found;
    found.reserve(ranked.size());
    for (const auto& each : ranked) found.push_back(each.found);
    return found;
}

}  // namespace evidence::trade

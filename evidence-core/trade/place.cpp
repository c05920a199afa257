#include "evidence-core/trade/place.h"

#include "evidence-core/trade/csv_lines.h"
#include "evidence-core/trade/folded_words.h"
#include "evidence-core/trade/table_texts.h"

#include <algorithm>
#include <cassert>

namespace evidence::trade {

namespace {

struct PlaceLine {
    Place code;
    std::vector<Place> within;
    std::string name;
    std::vector<std::string> saidAs;
};

const std::vector<PlaceLine>& placeLines() {
    static const std::vector<PlaceLine> kLines = [] {
        const auto lines = csvLines(tableText("places"));
        assert(lines);
        std::vector<PlaceLine> places;
        for (std::size_t i = 1; i < lines->size(); ++i) {
            const auto& line = (*lines)[i];
            places.push_back({line[0], parts(line[1], ';'), line[2], parts(line[3], ';')});
        }
        return places;
    }();
    return kLines;
}

/// What can be said for a place, the longest first.
std::vector<std::pair<std::string, Place>> spokenNames() {
    std::vector<std::pair<std::string, Place>> names;
    for (const auto& place : placeLines())
        for (const auto& said : place.saidAs) names.emplace_back(said, place.code);
    std::ranges::stable_sort(
        names, [](const auto& a, const auto& b) { return a.first.size() > b.first.size(); });
    return names;
}

bool isWithin(const Place& inner, const Place& outer) {
    if (inner == outer) return true;
    const auto line = std::ranges::find(placeLines(), inner, &PlaceLine::code);
    return line != placeLines().end() &&
           std::ranges::any_of(line->within,
                               [&](const Place& around) { return isWithin(around, outer); });
}

}  // namespace

std::vector<Place> placesIn(std::string_view words) {
    static const auto kNames = spokenNames();
    std::string text = folded(words);
    std::vector<Place> found;
    const auto add = [&](const Place& place) {
        if (std::ranges::find(found, place) == found.end()) found.push_back(place);
    };
    for (const auto& part : parts(text, ';'))
        for (const auto& place : placeLines())
            if (part == folded(place.code)) add(place.code);
    for (const auto& [said, place] : kNames) {
        if (!holdsWords(text, said)) continue;
        add(place);
        // Taken out, so that a shorter name is not found inside it.
        for (auto at = text.find(said); at != std::string::npos; at = text.find(said, at + 1))
            text.replace(at, said.size(), said.size(), '|');
    }
    return found;
}

bool overlap(const std::vector<Place>& a, const std::vector<Place>& b) {
    if (a.empty() || b.empty()) return true;
    return std::ranges::any_of(a, [&](const Place& one) {
        return std::ranges::any_of(
            b, [&](const Place& other) { return isWithin(one, other) || isWithin(other, one); });
    });
}

std::string allPlaces() {
    std::string names;
    for (const auto& place : placeLines()) names += (names.empty() ? "" : ", ") + place.name;
    return names;
}

}  // namespace evidence::trade

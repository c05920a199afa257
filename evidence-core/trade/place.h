#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace evidence::trade {

/// Code of a place: ISO 3166 where it is a country, else a word of ours (tables/places.csv).
using Place = std::string;

/// The places that words name, such as "UK; Empire" or "GB"; none where they name none known here.
/// Longer names go before those they hold: New England is no England.
[[nodiscard]] std::vector<Place> placesIn(std::string_view words);

/// True where one of `a` lies in or around one of `b`; an empty list is anywhere.
[[nodiscard]] bool overlap(const std::vector<Place>& a, const std::vector<Place>& b);

/// Names of all places, for a message.
[[nodiscard]] std::string allPlaces();

}  // namespace evidence::trade

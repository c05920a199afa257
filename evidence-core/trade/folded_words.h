#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Private to trade/: texts as they are compared.
namespace evidence::trade {

/// Lower-case ASCII letters; typographic fractions, primes, dashes, multiplication signs and spaces
/// as their plain counterparts; single spaces, none at the ends.
[[nodiscard]] std::string folded(std::string_view text);

/// The parts between `separator`, without the spaces around them; empty parts are left out.
[[nodiscard]] std::vector<std::string> parts(std::string_view text, char separator);

/// True where `words` stand in `text` as whole words; both folded.
[[nodiscard]] bool holdsWords(std::string_view text, std::string_view words);

}  // namespace evidence::trade

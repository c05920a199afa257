#pragma once

#include "evidence-core/exchange/json_value.h"
#include "evidence-core/refusal.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace evidence::exchange {

/// Bounds of what is read, so that a hostile document costs a message and not the machine.
struct JsonBounds {
    std::size_t bytes = std::size_t{512} * 1024 * 1024;
    std::size_t depth = 64;
};

/// Reads one JSON text (RFC 8259; UTF-8, a byte order mark is passed over).
/// Errors: BadDocument with line and column; DuplicateId for a key that stands twice in one object,
/// NotFinite, TooLarge and BadValue (a zero character in a text), each with a JSON pointer
/// (RFC 6901) as place.
[[nodiscard]] Result<Json> parseJson(std::string_view text, JsonBounds bounds = {});

enum class Layout {
    Compact,   ///< no white space: the canonical bytes of journal and digests
    Indented,  ///< two spaces; lists of plain numbers and texts on one line; ends with a newline
};

/// Numbers are printed by their own text. Same value, same bytes.
[[nodiscard]] std::string printJson(const Json& json, Layout layout);

/// `path` with `key` (escaped by RFC 6901) or `index` added.
[[nodiscard]] std::string pointerTo(std::string_view path, std::string_view key);
[[nodiscard]] std::string pointerTo(std::string_view path, std::size_t index);

/// True where every byte belongs to well-formed UTF-8 (Unicode 15, table 3-7) and none is zero.
[[nodiscard]] bool isPlainUtf8(std::string_view text);

}  // namespace evidence::exchange

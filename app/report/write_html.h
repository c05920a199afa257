#pragma once

#include "app/report/document.h"

#include <filesystem>

namespace app::report {

/// The document as one HTML file that fetches nothing: style, pictures (JPEG inside inline SVG) and
/// drawings are in it, every word from the register is escaped, there is no script. It is
/// well-formed XML too, so that any parser can read it in fifty years.
[[nodiscard]] QByteArray htmlOf(const Document& document);

/// Writes it to `out`, whole or not at all.
/// Throws std::filesystem::filesystem_error where the system fails.
void writeHtml(const Document& document, const std::filesystem::path& out);

}  // namespace app::report

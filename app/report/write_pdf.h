#pragma once

#include "app/report/document.h"
#include "app/report/report.h"

#include <filesystem>

namespace app::report {

/// The document as PDF/A-1b with real text, bookmarks and links. Writes to `out`, whole or not at
/// all. Needs a QGuiApplication.
/// Throws std::filesystem::filesystem_error where the system fails.
void writePdf(const Document& document, PaperSize paper, const std::filesystem::path& out);

}  // namespace app::report

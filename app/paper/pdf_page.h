#pragma once

#include <QImage>
#include <QSize>

#include <filesystem>
#include <optional>

/// Pages of PDF files as sheets: rastered at the resolution recorded with the file, so that one
/// system of pixel coordinates serves marks, viewer and reports. Any thread; needs a
/// QGuiApplication.
namespace app::paper {

/// Where a file does not say at what resolution it is rastered.
inline constexpr double kPdfDpi = 300;

/// Width and height in pixels of a page (1 = first) at `dpi`; nothing where it cannot be read or is
/// too large to be shown.
[[nodiscard]] std::optional<QSize> pdfPageSize(const std::filesystem::path& file, int page,
                                               double dpi = kPdfDpi);

/// The page on white, red, green, blue, 8 bits each; null where `pdfPageSize` gives nothing.
[[nodiscard]] QImage rasterPdfPage(const std::filesystem::path& file, int page,
                                   double dpi = kPdfDpi);

}  // namespace app::paper

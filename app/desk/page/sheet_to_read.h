#pragma once

#include "evidence-core/record/source.h"
#include "imaging/raster/raster.h"

#include <filesystem>
#include <optional>

namespace app::desk {
class OpenRegister;
}

namespace app::desk::page {

/// A page whose pixels are wanted: all that a thread needs to decode it.
struct SheetToRead {
    std::filesystem::path original;  ///< empty: the bytes are absent
    int page = 1;
    std::optional<double> pdfDpi;  ///< of a PDF file: the resolution its pages are rastered at
};
[[nodiscard]] SheetToRead sheetToRead(const OpenRegister& open, const evidence::record::File& file,
                                      int page);

/// Decodes the page, upright and at full depth; a PDF page is rastered on white. Any thread.
/// Errors: those of `imaging::raster::decodePage`; MissingFile without bytes; Unreadable for a PDF
/// page that cannot be shown.
[[nodiscard]] imaging::Result<imaging::raster::Raster> readSheet(const SheetToRead& sheet);

}  // namespace app::desk::page

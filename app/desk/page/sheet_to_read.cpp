#include "app/desk/page/sheet_to_read.h"

#include "app/desk/open_register.h"
#include "app/paper/pdf_page.h"

#include <opencv2/core.hpp>

#include <string>

namespace app::desk::page {

namespace raster = imaging::raster;

namespace {

imaging::Result<raster::Raster> rasteredPdf(const SheetToRead& sheet) {
    const QImage drawn = paper::rasterPdfPage(sheet.original, sheet.page, *sheet.pdfDpi);
    if (drawn.isNull())
        return imaging::refuse(imaging::Code::Unreadable, sheet.original.string(),
                               "page " + std::to_string(sheet.page) +
                                   " of this PDF file cannot be read, or is too large to be shown");
    raster::Raster drawnPage;
    drawnPage.colour = raster::Colour::Rgb;
    drawnPage.header.page = sheet.page;
    drawnPage.header.width = drawn.width();
    drawnPage.header.height = drawn.height();
    drawnPage.header.channels = 3;
    drawnPage.pixels.create(drawn.height(), drawn.width(), CV_8UC3);
    for (int row = 0; row < drawn.height(); ++row)
        std::copy_n(drawn.constScanLine(row), 3 * drawn.width(), drawnPage.pixels.ptr(row));
    return drawnPage;
}

}  // namespace

SheetToRead sheetToRead(const OpenRegister& open, const evidence::record::File& file, int page) {
    SheetToRead sheet{open.originalOf(file), page, std::nullopt};
    if (file.mediaType == "application/pdf") sheet.pdfDpi = file.rasterDpi.value_or(paper::kPdfDpi);
    return sheet;
}

imaging::Result<raster::Raster> readSheet(const SheetToRead& sheet) {
    if (sheet.original.empty())
        return imaging::refuse(imaging::Code::MissingFile, {},
                               "the original is not at hand: put the file back into the archive's "
                               "folder “originals”, or take it in again");
    if (sheet.pdfDpi) return rasteredPdf(sheet);
    return raster::decodePage(sheet.original, sheet.page);
}

}  // namespace app::desk::page

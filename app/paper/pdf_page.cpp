#include "app/paper/pdf_page.h"

#include <QPainter>
#include <QPdfDocument>

#include <cmath>

namespace app::paper {

namespace {

constexpr double kMostPixels = 268'435'456;  // 0.8 GB of red, green and blue

std::optional<QSize> sizeIn(const QPdfDocument& document, int page, double dpi) {
    if (document.status() != QPdfDocument::Status::Ready || page < 1 || page > document.pageCount())
        return std::nullopt;
    const QSizeF pixels = document.pagePointSize(page - 1) * (dpi / 72);
    if (!(pixels.width() * pixels.height() < kMostPixels)) return std::nullopt;
    const QSize size(int(std::lround(pixels.width())), int(std::lround(pixels.height())));
    return size.isEmpty() ? std::nullopt : std::optional(size);
}

}  // namespace

std::optional<QSize> pdfPageSize(const std::filesystem::path& file, int page, double dpi) {
    QPdfDocument document;
    document.load(QString::fromStdString(file.string()));
    return sizeIn(document, page, dpi);
}

QImage rasterPdfPage(const std::filesystem::path& file, int page, double dpi) {
    QPdfDocument document;
    document.load(QString::fromStdString(file.string()));
    const auto size = sizeIn(document, page, dpi);
    if (!size) return {};
    const QImage drawn = document.render(page - 1, *size);
    if (drawn.isNull()) return {};
    QImage onWhite(*size, QImage::Format_RGB888);
    onWhite.fill(Qt::white);
    QPainter(&onWhite).drawImage(0, 0, drawn);
    return onWhite;
}

}  // namespace app::paper

#include "app/report/sheet_pixels.h"

#include "app/paper/pdf_page.h"
#include "imaging/raster/header.h"
#include "imaging/raster/raster.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace app::report {

struct SheetPixels::Pixels {
    std::optional<imaging::raster::Raster> raster;
    QImage pdfPage;  ///< where there is no raster

    [[nodiscard]] cv::Size size() const {
        return raster ? raster->pixels.size() : cv::Size(pdfPage.width(), pdfPage.height());
    }
    [[nodiscard]] cv::Mat shown(const cv::Rect& part) const {
        if (raster) return imaging::raster::toDisplay8(*raster, part);
        // OpenCV has no view of constant bytes; nothing writes through this one.
        auto* bytes = const_cast<uchar*>(pdfPage.constBits());
        return cv::Mat(size(), CV_8UC3, bytes, std::size_t(pdfPage.bytesPerLine()))(part);
    }
};

namespace {

bool isPdf(const evidence::record::File& file) {
    return file.mediaType && *file.mediaType == "application/pdf";
}

}  // namespace

std::optional<QSize> sheetSize(const std::filesystem::path& original,
                               const evidence::record::File& file, int page) {
    if (original.empty()) return std::nullopt;
    if (isPdf(file))
        return paper::pdfPageSize(original, page, file.rasterDpi.value_or(paper::kPdfDpi));
    const auto header = imaging::raster::readHeader(original);
    if (!header) return std::nullopt;
    for (const auto& sheet : header->sheets)
        if (sheet.page == page) return QSize(sheet.width, sheet.height);
    return std::nullopt;
}

SheetPixels::SheetPixels(const std::filesystem::path& original, const evidence::record::File& file,
                         int page) {
    if (original.empty()) {
        m_problem = QStringLiteral("The original is not at hand: outline only.");
        return;
    }
    if (isPdf(file)) {
        QImage drawn =
            paper::rasterPdfPage(original, page, file.rasterDpi.value_or(paper::kPdfDpi));
        if (drawn.isNull())
            m_problem = QStringLiteral("The page of the PDF file cannot be shown: outline only.");
        else
            m_pixels = std::make_unique<Pixels>(Pixels{{}, std::move(drawn)});
        return;
    }
    auto decoded = imaging::raster::decodePage(original, page);
    if (!decoded) {
        m_problem = QStringLiteral("The original cannot be shown: ") +
                    QString::fromStdString(decoded.error().help);
        return;
    }
    m_pixels = std::make_unique<Pixels>(Pixels{std::move(*decoded), {}});
}

SheetPixels::~SheetPixels() = default;

namespace {

QImage asImage(const cv::Mat& pixels) {
    const QImage::Format format =
        pixels.channels() == 1 ? QImage::Format_Grayscale8 : QImage::Format_RGB888;
    return QImage(pixels.data, pixels.cols, pixels.rows, qsizetype(pixels.step), format).copy();
}

}  // namespace

QImage SheetPixels::part(const QRectF& box, int widest) const {
    if (!m_pixels) return {};
    // Pixel i covers i − ½ … i + ½.
    const auto pixelAt = [](double edge) { return int(std::floor(edge + 0.5)); };
    const int left = pixelAt(box.left());
    const int top = pixelAt(box.top());
    const int right = std::max(left + 1, pixelAt(box.right()));
    const int bottom = std::max(top + 1, pixelAt(box.bottom()));
    const cv::Rect wanted(left, top, right - left, bottom - top);
    const cv::Rect onPage = wanted & cv::Rect(cv::Point(0, 0), m_pixels->size());
    if (onPage.empty()) return {};
    const cv::Mat shownPart = m_pixels->shown(onPage);
    cv::Mat whole = shownPart;
    if (onPage != wanted) {
        whole = cv::Mat(wanted.size(), shownPart.type(), cv::Scalar::all(255));
        shownPart.copyTo(whole(onPage - wanted.tl()));
    }
    if (whole.cols > widest) {
        const double factor = double(widest) / whole.cols;
        cv::Mat reduced;
        cv::resize(whole, reduced,
                   cv::Size(widest, std::max(1, int(std::lround(whole.rows * factor)))), 0, 0,
                   cv::INTER_AREA);
        whole = reduced;
    }
    return asImage(whole);
}

}  // namespace app::report

#include "app/report/sheet_pixels.h"

#include "imaging/raster/raster.h"

#include <QPainter>
#include <QPdfDocument>
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

constexpr double kPdfDpi = 300;  // where a file does not say at what resolution it was rastered
constexpr qint64 kMostPixels = 1LL << 28;

// A page of a PDF file at its recorded resolution, on white; null where it cannot be read.
QImage pdfPage(const std::filesystem::path& original, int page, double dpi) {
    QPdfDocument document;
    document.load(QString::fromStdString(original.string()));
    if (document.status() != QPdfDocument::Status::Ready || page < 1 || page > document.pageCount())
        return {};
    const QSizeF points = document.pagePointSize(page - 1);
    const QSize size(int(std::lround(points.width() / 72 * dpi)),
                     int(std::lround(points.height() / 72 * dpi)));
    if (size.isEmpty() || qint64(size.width()) * size.height() > kMostPixels) return {};
    const QImage drawn = document.render(page - 1, size);
    if (drawn.isNull()) return {};
    QImage onWhite(size, QImage::Format_RGB888);
    onWhite.fill(Qt::white);
    QPainter(&onWhite).drawImage(0, 0, drawn);
    return onWhite;
}

}  // namespace

SheetPixels::SheetPixels(const std::filesystem::path& original, const evidence::record::File& file,
                         int page) {
    if (original.empty()) {
        m_problem = QStringLiteral("The original is not at hand: outline only.");
        return;
    }
    if (file.mediaType && *file.mediaType == "application/pdf") {
        QImage drawn = pdfPage(original, page, file.rasterDpi.value_or(kPdfDpi));
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

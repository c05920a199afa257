#include "app/report/sheet_pixels.h"

#include "imaging/raster/raster.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace app::report {

struct SheetPixels::Pixels {
    imaging::raster::Raster raster;
};

SheetPixels::SheetPixels(const std::filesystem::path& original, const evidence::record::File& file,
                         int page) {
    if (original.empty()) {
        m_problem = QStringLiteral("The original is not at hand: outline only.");
        return;
    }
    if (file.mediaType && *file.mediaType == "application/pdf") {
        m_problem = QStringLiteral("A page of a PDF file: outline only.");
        return;
    }
    auto decoded = imaging::raster::decodePage(original, page);
    if (!decoded) {
        m_problem = QStringLiteral("The original cannot be shown: ") +
                    QString::fromStdString(decoded.error().help);
        return;
    }
    m_pixels = std::make_unique<Pixels>(Pixels{std::move(*decoded)});
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
    const int width = m_pixels->raster.pixels.cols;
    const int height = m_pixels->raster.pixels.rows;
    // Pixel i covers i − ½ … i + ½: a box edge at x lies in pixel round(x).
    const int left = int(std::lround(box.left()));
    const int top = int(std::lround(box.top()));
    const int right = std::max(left + 1, int(std::lround(box.right())));
    const int bottom = std::max(top + 1, int(std::lround(box.bottom())));
    const cv::Rect wanted(left, top, right - left, bottom - top);
    const cv::Rect onPage = wanted & cv::Rect(0, 0, width, height);
    if (onPage.empty()) return {};
    const cv::Mat shownPart = imaging::raster::toDisplay8(m_pixels->raster, onPage);
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

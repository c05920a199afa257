#include "app/desk/page/page_picture.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <utility>

namespace app::desk::page {

namespace raster = imaging::raster;

namespace {

constexpr int kLargestTop = 256;   ///< px: where the pyramid ends
constexpr int kRowsAtOnce = 1024;  ///< even, so that strips halve without a seam

/// Half the size, each pixel the mean of the (up to) four it covers.
cv::Mat halved(const cv::Mat& pixels) {
    cv::Mat even = pixels;
    if (pixels.cols % 2 != 0 || pixels.rows % 2 != 0)
        cv::copyMakeBorder(pixels, even, 0, pixels.rows % 2, 0, pixels.cols % 2,
                           cv::BORDER_REPLICATE);
    cv::Mat half;
    cv::resize(even, half, cv::Size(even.cols / 2, even.rows / 2), 0, 0, cv::INTER_AREA);
    return half;
}

/// Level 1, strip by strip: the whole page never stands at 8 bits beside its full depth.
cv::Mat firstReduction(const raster::Raster& page) {
    const cv::Size size = page.pixels.size();
    cv::Mat level;
    for (int top = 0; top < size.height; top += kRowsAtOnce) {
        const int rows = std::min(kRowsAtOnce, size.height - top);
        const cv::Mat half = halved(raster::toDisplay8(page, cv::Rect(0, top, size.width, rows)));
        if (level.empty()) level.create((size.height + 1) / 2, (size.width + 1) / 2, half.type());
        half.copyTo(level.rowRange(top / 2, top / 2 + half.rows));
    }
    return level;
}

QImage imageOf(const cv::Mat& pixels) {
    const QImage::Format format =
        pixels.channels() == 1 ? QImage::Format_Grayscale8 : QImage::Format_RGB888;
    return QImage(pixels.data, pixels.cols, pixels.rows, static_cast<qsizetype>(pixels.step),
                  format)
        .copy();
}

}  // namespace

imaging::Result<std::shared_ptr<const PagePicture>> PagePicture::read(
    const SheetToRead& sheet, const std::function<bool()>& cancelled) {
    const auto stop = [&] { return cancelled && cancelled(); };
    if (stop()) return nullptr;
    auto decoded = readSheet(sheet);
    if (!decoded) return tl::unexpected<imaging::Refusal>(std::move(decoded.error()));
    if (stop()) return nullptr;
    auto picture = std::make_shared<const PagePicture>(std::move(*decoded), cancelled);
    if (stop()) return nullptr;
    return picture;
}

PagePicture::PagePicture(raster::Raster raster, const std::function<bool()>& cancelled)
    : m_raster(std::move(raster)) {
    const auto stop = [&] { return cancelled && cancelled(); };
    const auto large = [](const cv::Size& size) {
        return std::max(size.width, size.height) > kLargestTop;
    };
    if (large(m_raster.pixels.size()) && !stop()) m_reduced.push_back(firstReduction(m_raster));
    while (!m_reduced.empty() && large(m_reduced.back().size()) && !stop())
        m_reduced.push_back(halved(m_reduced.back()));
    if (!stop()) m_grey = raster::toGrey(m_raster);
}

QSize PagePicture::sizeOf(int level) const {
    const cv::Mat& pixels =
        level == 0 ? m_raster.pixels : m_reduced[static_cast<std::size_t>(level - 1)];
    return {pixels.cols, pixels.rows};
}

QImage PagePicture::part(int level, const QRect& part) const {
    const cv::Rect rect(part.x(), part.y(), part.width(), part.height());
    if (level == 0) return imageOf(raster::toDisplay8(m_raster, rect));
    return imageOf(m_reduced[static_cast<std::size_t>(level - 1)](rect));
}

}  // namespace app::desk::page

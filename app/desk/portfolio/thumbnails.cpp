#include "app/desk/portfolio/thumbnails.h"

#include "imaging/raster/raster.h"

#include <QtConcurrent>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace app::desk::portfolio {

namespace raster = imaging::raster;
namespace record = evidence::record;

namespace {

constexpr qsizetype kMostKept = 2000;  ///< pictures: some 70 MB

QImage smallPicture(const std::filesystem::path& file) {
    const auto decoded = raster::decodePage(file);
    if (!decoded) return {};
    const cv::Mat page = raster::toDisplay8(*decoded);
    const double factor =
        std::min(1.0, static_cast<double>(Thumbnails::kSide) / std::max(page.cols, page.rows));
    const auto side = [&](int pixels) {
        return std::max(1, static_cast<int>(std::lround(pixels * factor)));
    };
    cv::Mat small;
    cv::resize(page, small, cv::Size(side(page.cols), side(page.rows)), 0, 0, cv::INTER_AREA);
    const QImage::Format format =
        small.channels() == 1 ? QImage::Format_Grayscale8 : QImage::Format_RGB888;
    return QImage(small.data, small.cols, small.rows, static_cast<qsizetype>(small.step), format)
        .copy();
}

}  // namespace

Thumbnails::Thumbnails(Lookup originalOf, QObject* parent)
    : QObject(parent), m_originalOf(std::move(originalOf)), m_kept(kMostKept) {
    connect(&m_watcher, &QFutureWatcherBase::finished, this, &Thumbnails::take);
}

Thumbnails::~Thumbnails() = default;

QPixmap Thumbnails::of(const record::FileId& file) {
    if (file.empty()) return {};
    if (const QPixmap* kept = m_kept.object(QString::fromStdString(file.text))) return *kept;
    if (file != m_inHand && std::ranges::find(m_wanted, file) == m_wanted.end()) {
        m_wanted.push_back(file);
        if (!m_watcher.isRunning()) next();
    }
    return {};
}

void Thumbnails::next() {
    m_inHand = {};
    if (m_wanted.empty()) return;
    m_inHand = m_wanted.front();
    m_wanted.pop_front();
    m_watcher.setFuture(QtConcurrent::run(smallPicture, m_originalOf(m_inHand)));
}

void Thumbnails::take() {
    const record::FileId file = m_inHand;
    m_kept.insert(QString::fromStdString(file.text),
                  new QPixmap(QPixmap::fromImage(m_watcher.result())));  // the cache owns it
    next();
    Q_EMIT arrived(file);
}

}  // namespace app::desk::portfolio

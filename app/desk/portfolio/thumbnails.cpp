#include "app/desk/portfolio/thumbnails.h"

#include "imaging/raster/raster.h"

#include <QtConcurrent>

#include <algorithm>

namespace app::desk::portfolio {

namespace raster = imaging::raster;
namespace record = evidence::record;

namespace {

constexpr qsizetype kMostKept = 2000;  ///< pictures: some 70 MB

QImage smallPicture(const page::SheetToRead& sheet) {
    const auto decoded = page::readSheet(sheet);
    if (!decoded) return {};
    const auto page = raster::toDisplay8(*decoded);
    const QImage shown(page.data, page.cols, page.rows, static_cast<qsizetype>(page.step),
                       page.channels() == 1 ? QImage::Format_Grayscale8 : QImage::Format_RGB888);
    if (std::max(page.cols, page.rows) <= Thumbnails::kSide) return shown.copy();
    return shown.scaled(Thumbnails::kSide, Thumbnails::kSide, Qt::KeepAspectRatio,
                        Qt::SmoothTransformation);
}

}  // namespace

Thumbnails::Thumbnails(Lookup sheetOf, QObject* parent)
    : QObject(parent), m_sheetOf(std::move(sheetOf)), m_kept(kMostKept) {
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
    m_watcher.setFuture(QtConcurrent::run(smallPicture, m_sheetOf(m_inHand)));
}

void Thumbnails::take() {
    const record::FileId file = m_inHand;
    m_kept.insert(QString::fromStdString(file.text),
                  new QPixmap(QPixmap::fromImage(m_watcher.result())));  // the cache owns it
    next();
    Q_EMIT arrived(file);
}

}  // namespace app::desk::portfolio

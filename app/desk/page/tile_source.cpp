#include "app/desk/page/tile_source.h"

#include <QPromise>
#include <QtConcurrent>

#include <algorithm>

namespace app::desk::page {

namespace {

using Answer = imaging::Result<std::shared_ptr<const PagePicture>>;

void read(QPromise<Answer>& promise, const SheetToRead& sheet) {
    promise.addResult(PagePicture::read(sheet, [&promise] { return promise.isCanceled(); }));
}

}  // namespace

TileSource::TileSource(QObject* parent, qsizetype budget) : QObject(parent), m_tiles(budget) {
    connect(&m_watcher, &QFutureWatcherBase::finished, this, &TileSource::take);
}

TileSource::~TileSource() {
    m_watcher.cancel();
}

void TileSource::open(const SheetToRead& sheet) {
    close();
    m_state = State::Reading;
    m_watcher.setFuture(QtConcurrent::run(read, sheet));
    Q_EMIT changed();
}

void TileSource::close(const QString& why) {
    m_watcher.cancel();
    m_watcher.setFuture({});  // what still runs answers nobody
    m_tiles.clear();
    m_picture.reset();
    m_refusal = why;
    m_state = why.isEmpty() ? State::Empty : State::Refused;
    Q_EMIT changed();
}

void TileSource::take() {
    if (m_watcher.isCanceled() || m_watcher.future().resultCount() == 0) return;
    const Answer answer = m_watcher.result();
    if (answer) {
        m_picture = *answer;
        m_state = State::Ready;
    } else {
        m_refusal =
            tr("This page cannot be shown: %1.").arg(QString::fromStdString(answer.error().help));
        m_state = State::Refused;
    }
    Q_EMIT changed();
}

QSize TileSource::tilesOf(int level) const {
    const QSize size = m_picture->sizeOf(level);
    return {(size.width() + kTileSide - 1) / kTileSide,
            (size.height() + kTileSide - 1) / kTileSide};
}

QRect TileSource::pixelsOf(const TileKey& key) const {
    const QRect square(key.column * kTileSide, key.row * kTileSide, kTileSide, kTileSide);
    return square & QRect(QPoint(0, 0), m_picture->sizeOf(key.level));
}

QPixmap TileSource::tile(const TileKey& key) {
    if (const QPixmap* kept = m_tiles.object(key)) return *kept;
    QPixmap made = QPixmap::fromImage(m_picture->part(key.level, pixelsOf(key)));
    constexpr int kBytesPerPixel = 4;
    m_tiles.insert(key, new QPixmap(made),  // the cache owns it
                   qsizetype{kBytesPerPixel} * made.width() * made.height());
    return made;
}

}  // namespace app::desk::page

#pragma once

#include "app/desk/page/page_picture.h"

#include <QCache>
#include <QFutureWatcher>
#include <QObject>
#include <QPixmap>
#include <QString>

#include <memory>

namespace app::desk::page {

/// A square of one level of the pyramid: column and row of squares of `kTileSide` px.
struct TileKey {
    int level = 0;
    int column = 0;
    int row = 0;

    friend bool operator==(const TileKey&, const TileKey&) = default;
    friend size_t qHash(const TileKey& key, size_t seed = 0) {
        return qHashMulti(seed, key.level, key.column, key.row);
    }
};
inline constexpr int kTileSide = 256;

/// Decodes the page that lies open off the user's thread and hands out its tiles. Tiles are made
/// when asked for; the last used ones are kept within a budget of bytes. User's thread only.
class TileSource : public QObject {
    Q_OBJECT

  public:
    enum class State { Empty, Reading, Ready, Refused };

    static constexpr qsizetype kBudget = qsizetype{96} << 20U;

    explicit TileSource(QObject* parent = nullptr, qsizetype budget = kBudget);
    ~TileSource() override;

    /// Starts reading a page; one that is still being read is given up.
    void open(const SheetToRead& sheet);
    /// No page, or one that cannot be had: `why` is a sentence, empty where nothing is wrong.
    void close(const QString& why = {});

    [[nodiscard]] State state() const { return m_state; }
    /// Why the page is not shown.
    [[nodiscard]] const QString& refusal() const { return m_refusal; }
    /// Null unless ready.
    [[nodiscard]] std::shared_ptr<const PagePicture> picture() const { return m_picture; }

    /// Columns and rows of tiles of a level. Entry: ready.
    [[nodiscard]] QSize tilesOf(int level) const;
    /// The pixels of its level that a tile covers. Entry: ready.
    [[nodiscard]] QRect pixelsOf(const TileKey& key) const;
    /// Entry: ready, and the key within `tilesOf`.
    [[nodiscard]] QPixmap tile(const TileKey& key);

    [[nodiscard]] qsizetype bytesHeld() const { return m_tiles.totalCost(); }

  Q_SIGNALS:
    /// The state is another one.
    void changed();

  private:
    using Answer = imaging::Result<std::shared_ptr<const PagePicture>>;

    void take();

    QFutureWatcher<Answer> m_watcher;
    State m_state = State::Empty;
    QString m_refusal;
    std::shared_ptr<const PagePicture> m_picture;
    QCache<TileKey, QPixmap> m_tiles;
};

}  // namespace app::desk::page

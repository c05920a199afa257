#pragma once

#include "app/desk/page/sheet_to_read.h"
#include "evidence-core/record/id.h"

#include <QCache>
#include <QFutureWatcher>
#include <QImage>
#include <QObject>
#include <QPixmap>
#include <QString>

#include <deque>
#include <functional>

namespace app::desk::portfolio {

/// Small pictures of first pages, decoded off the user's thread one after the other and kept in
/// memory. User's thread only.
class Thumbnails : public QObject {
    Q_OBJECT

  public:
    static constexpr int kSide = 96;  ///< px of the longer side

    /// Says where the first page of a file is read from.
    using Lookup = std::function<page::SheetToRead(const evidence::record::FileId&)>;
    explicit Thumbnails(Lookup sheetOf, QObject* parent = nullptr);
    ~Thumbnails() override;

    /// The picture, or a null one: then it is asked for, and `arrived` tells when it is there.
    /// What cannot be decoded stays null and is not tried again.
    [[nodiscard]] QPixmap of(const evidence::record::FileId& file);

  Q_SIGNALS:
    void arrived(const evidence::record::FileId& file);

  private:
    void next();
    void take();

    Lookup m_sheetOf;
    QCache<QString, QPixmap> m_kept;
    std::deque<evidence::record::FileId> m_wanted;
    evidence::record::FileId m_inHand;
    QFutureWatcher<QImage> m_watcher;
};

}  // namespace app::desk::portfolio

#pragma once

#include "app/desk/page/page_marks.h"
#include "app/desk/page/page_viewport.h"

#include <QFontMetricsF>
#include <QRectF>
#include <QString>

#include <vector>

namespace app::desk::page {

/// A word on a plate, in view coordinates.
struct Plate {
    QRectF box;
    QString words;
    evidence::record::MarkId mark;
};

/// Room for words with their margins.
[[nodiscard]] QSizeF plateSize(const QString& words, const QFontMetricsF& metrics);

/// Where the labels of marks stand: beside their lines, inside `view`, none upon another. Those of
/// `first` are always shown, in that order; then the longest marks, where there is room and the
/// mark is longer than its label.
[[nodiscard]] std::vector<Plate> labelPlaces(const std::vector<PageMark>& marks,
                                             const PageViewport& viewport, const QRectF& view,
                                             const QFontMetricsF& metrics,
                                             const std::vector<evidence::record::MarkId>& first);

}  // namespace app::desk::page

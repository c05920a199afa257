#pragma once

#include "app/report/figure/figure_style.h"
#include "evidence-core/judgement/thread.h"

#include <QPainterPath>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

class QPainter;

/// The thread of one value as a picture: sources left, the value right, in columns by stage; the
/// width of a flow is its share of the doubt, and what is held weakly is drawn weakly (broken
/// lines for what is boxed in or carried over, dots for a guess, grey for what does not count).
namespace app::report::figure {

/// Where everything stands, in painter units from (0, 0). The desk hit-tests with it.
struct ThreadLayout {
    QSizeF size;
    std::vector<QRectF> nodes;        ///< as `Thread::nodes`
    std::vector<QPainterPath> links;  ///< centre lines, as `Thread::links`
    std::vector<double> widths;       ///< of the links
};

/// Lays a thread out in `width`; the height follows. With more columns than `width` can hold
/// legibly the layout is wider than asked; the desk scrolls, the report scales.
[[nodiscard]] ThreadLayout layoutThread(const evidence::judgement::Thread& thread, double width,
                                        const FigureStyle& style);

/// Draws what was laid out. `chosen`: the index of the node shown as selected.
void drawThread(QPainter& painter, const evidence::judgement::Thread& thread,
                const ThreadLayout& layout, const FigureStyle& style,
                std::optional<std::size_t> chosen = {});

/// The node at a point, if any.
[[nodiscard]] std::optional<std::size_t> nodeAt(const ThreadLayout& layout, const QPointF& point);

/// "Sources", "Marks and excerpts", "Scales" … the headings of the columns.
[[nodiscard]] QString stageName(evidence::judgement::ThreadStage stage);

}  // namespace app::report::figure

#include "app/desk/page/label_places.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace app::desk::page {

namespace record = evidence::record;

namespace {

constexpr double kBeside = 6;  ///< view px between a line and its label

bool isRound(const record::Mark& mark) {
    return mark.kind == record::MarkKind::Circle || mark.kind == record::MarkKind::Ellipse;
}

/// Both sides of a place on a line: above and below a lying one, right and left of a standing one.
void addSides(std::vector<QRectF>& places, const QPointF& at, const QPointF& along,
              const QSizeF& size) {
    const bool lies = std::abs(along.x()) >= std::abs(along.y());
    for (const double side : {-1.0, 1.0}) {
        QRectF box(QPointF(0, 0), size);
        box.moveCenter(lies ? at + QPointF(0, side * (size.height() / 2 + kBeside))
                            : at - QPointF(side * (size.width() / 2 + kBeside), 0));
        places.push_back(box);
    }
}

/// Places for the label of a mark, the best first.
std::vector<QRectF> placesFor(const record::Mark& mark, const PageViewport& viewport,
                              const QRectF& view, const QSizeF& size) {
    std::vector<QRectF> places;
    const QRectF bounds = pathInView(mark, viewport).boundingRect();
    if (isRound(mark) || mark.points.size() < 2) {
        addSides(places, {bounds.center().x(), bounds.top()}, {1, 0}, size);
        addSides(places, {bounds.center().x(), bounds.bottom()}, {1, 0}, size);
        return places;
    }
    const auto inView = [&](const record::PixelPoint& point) {
        return viewport.toView(QPointF(point.x, point.y));
    };
    const QPointF from = inView(mark.points.front());
    const QPointF along = inView(mark.points.back()) - from;
    // The middle of what is seen first, then other places along the line.
    std::vector<double> seen;
    constexpr int kSteps = 32;
    for (int i = 0; i <= kSteps; ++i)
        if (view.contains(from + (static_cast<double>(i) / kSteps) * along))
            seen.push_back(static_cast<double>(i) / kSteps);
    if (seen.empty()) seen = {0.5};
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
        const auto last = static_cast<double>(seen.size() - 1);
        const double t = seen[static_cast<std::size_t>(std::lround(share * last))];
        addSides(places, from + t * along, along, size);
    }
    return places;
}

QRectF inside(QRectF box, const QRectF& view) {
    box.moveLeft(
        std::clamp(box.left(), view.left(), std::max(view.left(), view.right() - box.width())));
    box.moveTop(
        std::clamp(box.top(), view.top(), std::max(view.top(), view.bottom() - box.height())));
    return box;
}

}  // namespace

QSizeF plateSize(const QString& words, const QFontMetricsF& metrics) {
    return metrics.size(0, words) + QSizeF(10, 4);
}

std::vector<Plate> labelPlaces(const std::vector<PageMark>& marks, const PageViewport& viewport,
                               const QRectF& view, const QFontMetricsF& metrics,
                               const std::vector<record::MarkId>& first) {
    struct Wanted {
        const PageMark* mark = nullptr;
        std::size_t rank = 0;  ///< of those that come first
        double length = 0;
    };
    std::vector<Wanted> wanted;
    for (const PageMark& mark : marks) {
        if (mark.label.isEmpty()) continue;
        const auto rank =
            static_cast<std::size_t>(std::ranges::find(first, mark.mark->id) - first.begin());
        const QRectF bounds = pathInView(*mark.mark, viewport).boundingRect();
        if (!bounds.adjusted(-1, -1, 1, 1).intersects(view)) continue;
        wanted.push_back({&mark, rank, std::hypot(bounds.width(), bounds.height())});
    }
    std::ranges::stable_sort(wanted, [](const Wanted& a, const Wanted& b) {
        return a.rank != b.rank ? a.rank < b.rank : a.length > b.length;
    });
    std::vector<Plate> plates;
    for (const Wanted& one : wanted) {
        const QSizeF size = plateSize(one.mark->label, metrics);
        const bool always = one.rank < first.size();
        if (!always && one.length < size.width()) continue;
        const auto places = placesFor(*one.mark->mark, viewport, view, size);
        const auto isFree = [&](const QRectF& box) {
            return view.contains(box) && std::ranges::none_of(plates, [&](const Plate& other) {
                       return other.box.intersects(box);
                   });
        };
        const auto found = std::ranges::find_if(places, isFree);
        if (found != places.end())
            plates.push_back({*found, one.mark->label, one.mark->mark->id});
        else if (always)
            plates.push_back({inside(places.front(), view), one.mark->label, one.mark->mark->id});
    }
    return plates;
}

}  // namespace app::desk::page

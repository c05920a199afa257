#include "app/session/fit_draft.h"

#include "app/session/convert.h"

namespace app::session {

namespace {

namespace mark = imaging::mark;
namespace record = evidence::record;

using Matrix = std::vector<std::vector<double>>;

mark::MarkKind kindOf(record::MarkKind kind) {
    switch (kind) {
        case record::MarkKind::Point:
            return mark::MarkKind::Point;
        case record::MarkKind::Segment:
            return mark::MarkKind::Segment;
        case record::MarkKind::Line:
            return mark::MarkKind::Line;
        case record::MarkKind::Circle:
            return mark::MarkKind::Circle;
        case record::MarkKind::Ellipse:
            return mark::MarkKind::Ellipse;
        case record::MarkKind::Curve:
            return mark::MarkKind::Curve;
        case record::MarkKind::Pattern:
            return mark::MarkKind::Pattern;
    }
    return mark::MarkKind::Point;
}

record::Made madeBy(mark::Fit fit) {
    switch (fit) {
        case mark::Fit::None:
            return record::Made::Picked;
        case mark::Fit::Edge:
            return record::Made::Edge;
        case mark::Fit::LineCentre:
            return record::Made::LineCentre;
        case mark::Fit::Corner:
            return record::Made::Corner;
    }
    return record::Made::Picked;
}

Matrix rowsOf(const Eigen::MatrixXd& matrix) {
    Matrix rows(static_cast<std::size_t>(matrix.rows()));
    for (Eigen::Index i = 0; i < matrix.rows(); ++i)
        for (Eigen::Index j = 0; j < matrix.cols(); ++j)
            rows[static_cast<std::size_t>(i)].push_back(matrix(i, j));
    return rows;
}

record::ConicFit conicOf(const mark::CircleFit& circle) {
    record::ConicFit conic;
    conic.centre = {circle.centre.x(), circle.centre.y()};
    conic.radius = circle.radius;
    conic.covariance = rowsOf(circle.covariance);
    return conic;
}

}  // namespace

evidence::Result<MarkDraft> fitDraft(const imaging::raster::GreyImage& page,
                                     const MarkDraft& placed, const FitOptions& options) {
    mark::MarkRequest request;
    request.kind = kindOf(placed.kind);
    for (const auto& point : placed.points) request.points.emplace_back(point.x, point.y);
    request.fit = options.fit;
    request.searchPx = options.searchPx;
    request.uPx = placed.uPx;
    const auto fitted = mark::fitMark(page, request);
    if (!fitted) return tl::unexpected(converted(fitted.error(), "mark"));

    MarkDraft draft = placed;
    draft.made = madeBy(fitted->made);
    draft.fit.reset();
    draft.covariance.clear();
    record::SheetSeen seen;
    seen.width = page.width();
    seen.height = page.height();
    if (placed.seen) seen.orientation = placed.seen->orientation;
    draft.seen = seen;
    if (fitted->circle) {
        draft.fit = conicOf(*fitted->circle);
    } else if (fitted->made != mark::Fit::None) {
        // What was only placed keeps the default of marks, and is reported as such.
        draft.covariance = rowsOf(fitted->covariance);
        for (std::size_t i = 0; i < draft.points.size(); ++i)
            draft.points[i] = {fitted->points[i].x(), fitted->points[i].y()};
    }
    return draft;
}

}  // namespace app::session

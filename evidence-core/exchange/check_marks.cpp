#include "evidence-core/exchange/register_check.h"

#include <fmt/format.h>

#include <cmath>

namespace evidence::exchange {

using record::MarkKind;

namespace {

struct PointCount {
    std::size_t fewest;
    std::size_t most;
};

PointCount pointsOf(MarkKind kind) {
    constexpr std::size_t kNoEnd = 1'000'000;
    switch (kind) {
        case MarkKind::Point:
            return {1, 1};
        case MarkKind::Segment:
            return {2, 2};
        case MarkKind::Line:
            return {2, kNoEnd};
        case MarkKind::Circle:
            return {3, kNoEnd};
        case MarkKind::Ellipse:
            return {5, kNoEnd};
        case MarkKind::Curve:
            return {2, kNoEnd};
        case MarkKind::Pattern:
            return {3, kNoEnd};
    }
    return {1, kNoEnd};
}

bool checkPoints(const CheckContext& context, MarkKind kind,
                 const std::vector<record::PixelPoint>& points) {
    const auto [fewest, most] = pointsOf(kind);
    if (points.size() < fewest || points.size() > most) {
        const auto* amount =
            fewest == most ? "" : (points.size() < fewest ? "at least " : "at most ");
        return context.reader.refuseHere(
            Code::BadValue, fmt::format("a {} takes {}{} point{}; found {}", record::nameOf(kind),
                                        amount, points.size() > most ? most : fewest,
                                        fewest == 1 ? "" : "s", points.size()));
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (std::isfinite(points[i].x) && std::isfinite(points[i].y)) continue;
        const JsonReader::Step step(context.reader, i);
        return context.reader.refuseHere(Code::NotFinite, "expected finite pixels");
    }
    return true;
}

bool checkFit(const CheckContext& context, const record::Mark& mark) {
    if (!mark.fit) return true;
    const auto& fit = *mark.fit;
    const JsonReader::Step step(context.reader, std::string_view("fit"));
    if (mark.kind == MarkKind::Circle) {
        if (!fit.radius)
            return context.reader.refuseHere(Code::MissingKey,
                                             "the key \"radius\" is required for a circle");
        return checkNumber(context, "radius", fit.radius, Least::Positive) &&
               checkCovariance(context, "covariance", fit.covariance, 3);
    }
    if (mark.kind != MarkKind::Ellipse)
        return context.reader.refuseHere(Code::WrongUse,
                                         "only a circle or an ellipse has this kind of fit");
    if (!fit.axes || !fit.angle)
        return context.reader.refuseHere(
            Code::MissingKey, "the keys \"axes\" and \"angle\" are required for an ellipse");
    return checkNumber(context, "axes", (*fit.axes)[0], Least::Positive) &&
           checkNumber(context, "axes", (*fit.axes)[1], Least::Positive) &&
           checkNumber(context, "angle", fit.angle, Least::Any) &&
           checkCovariance(context, "covariance", fit.covariance, 5);
}

}  // namespace

bool checkSense(const CheckContext& context, const record::Mark& mark) {
    {
        const JsonReader::Step step(context.reader, std::string_view("points"));
        if (!checkPoints(context, mark.kind, mark.points)) return false;
    }
    for (std::size_t i = 0; i < mark.repeats.size(); ++i) {
        const JsonReader::Step list(context.reader, std::string_view("repeats"));
        const JsonReader::Step step(context.reader, i);
        if (!checkPoints(context, mark.kind, mark.repeats[i])) return false;
        if (mark.repeats[i].size() != mark.points.size())
            return context.reader.refuseHere(Code::BadValue,
                                             "a repeat has as many points as the mark itself");
    }
    if (mark.seen && (mark.seen->width < 1 || mark.seen->height < 1))
        return refuseAt(context, "seen", Code::BadValue,
                        "a sheet is at least one pixel wide and high");
    return checkPage(context, mark.page) &&
           checkNumber(context, "u_px", mark.uPx, Least::NotNegative) &&
           checkCovariance(context, "covariance", mark.covariance, 2 * mark.points.size()) &&
           checkFit(context, mark);
}

}  // namespace evidence::exchange

#include "imaging/task/quantities.h"

#include "evidence-core/frame/off_plane.h"
#include "evidence-core/frame/pixel_geometry.h"
#include "evidence-core/frame/printed.h"
#include "evidence-core/frame/uniform.h"
#include "imaging/frame/spread.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace imaging::task {
namespace {

using mark::FittedMark;
using mark::MarkKind;

constexpr double kParallelWithin = 10 * std::numbers::pi / 180;

bool isLine(const FittedMark& mark) {
    return mark.kind == MarkKind::Line || mark.kind == MarkKind::Segment;
}

bool isPoint(const FittedMark& mark) {
    return mark.kind == MarkKind::Point || mark.kind == MarkKind::Circle;
}

Eigen::Index parameters(const FittedMark& mark) {
    return mark.circle ? 3 : mark.covariance.rows();
}

Eigen::MatrixXd covariance(const FittedMark& mark) {
    return mark.circle ? Eigen::MatrixXd(mark.circle->covariance) : mark.covariance;
}

Linear constant(double value, std::size_t marks, std::size_t references) {
    Linear linear;
    linear.value = value;
    linear.byMark.resize(marks);
    linear.byReference.resize(references);
    return linear;
}

void add(Linear& linear, std::size_t mark, const FittedMark& fitted, Eigen::Index first,
         const Eigen::RowVectorXd& by) {
    Eigen::RowVectorXd& row = linear.byMark[mark];
    if (row.size() == 0) {
        row = Eigen::RowVectorXd::Zero(parameters(fitted));
    }
    row.segment(first, by.size()) += by;
}

/// a·x + b·y for the derivatives; the value is set by the caller.
Linear combined(const Linear& x, double a, const Linear& y, double b) {
    Linear result = x;
    for (std::size_t i = 0; i < x.byMark.size(); ++i) {
        Eigen::RowVectorXd& row = result.byMark[i];
        if (row.size() > 0) {
            row *= a;
        }
        if (y.byMark[i].size() > 0) {
            row = row.size() > 0 ? Eigen::RowVectorXd(row + b * y.byMark[i])
                                 : Eigen::RowVectorXd(b * y.byMark[i]);
        }
    }
    for (std::size_t i = 0; i < x.byReference.size(); ++i) {
        result.byReference[i] = a * x.byReference[i] + b * y.byReference[i];
    }
    result.byPrint = a * x.byPrint + b * y.byPrint;
    return result;
}

double markVariance(const Linear& linear, const std::vector<FittedMark>& marks) {
    double variance = 0;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const Eigen::RowVectorXd& row = linear.byMark[i];
        if (row.size() > 0) {
            variance += row * covariance(marks[i]) * row.transpose();
        }
    }
    return variance;
}

/// The point a mark stands for, and where its coordinates are among the mark's parameters.
evidence::frame::Point pointOf(const FittedMark& mark) {
    return mark.circle ? mark.circle->centre : mark.points.front();
}

tl::unexpected<Refusal> wrong(std::size_t entry, const char* key, std::string help) {
    return refuse(Code::BadValue, fmt::format("/measure/{}/{}", entry, key), std::move(help));
}

class PixelQuantity {
  public:
    PixelQuantity(const Task& task, const std::vector<FittedMark>& marks)
        : m_task(task), m_marks(marks) {}

    /// Length of a segment or line between its first and last point, in px.
    [[nodiscard]] Linear run(std::size_t index) const {
        const FittedMark& mark = m_marks[index];
        const auto d = evidence::frame::pointToPoint(mark.points.front(), mark.points.back());
        Linear linear = zero(d.value);
        add(linear, index, mark, 0, d.jacobian.head<2>());
        add(linear, index, mark, mark.covariance.rows() - 2, d.jacobian.tail<2>());
        return linear;
    }

    [[nodiscard]] Linear radius(std::size_t index, double times) const {
        Linear linear = zero(times * m_marks[index].circle->radius);
        add(linear, index, m_marks[index], 2, Eigen::RowVectorXd::Constant(1, times));
        return linear;
    }

    [[nodiscard]] Linear pointPoint(std::size_t a, std::size_t b) const {
        const auto d = evidence::frame::pointToPoint(pointOf(m_marks[a]), pointOf(m_marks[b]));
        Linear linear = zero(d.value);
        add(linear, a, m_marks[a], 0, d.jacobian.head<2>());
        add(linear, b, m_marks[b], 0, d.jacobian.tail<2>());
        return linear;
    }

    [[nodiscard]] Linear pointLine(std::size_t point, std::size_t line) const {
        const FittedMark& mark = m_marks[line];
        const auto d = evidence::frame::pointToLine(pointOf(m_marks[point]), mark.points.front(),
                                                    mark.points.back());
        Linear linear = zero(d.value);
        add(linear, point, m_marks[point], 0, d.jacobian.head<2>());
        addEnds(linear, line, d.jacobian.tail<4>());
        return linear;
    }

    [[nodiscard]] Linear lineLine(std::size_t a, std::size_t b) const {
        return ofLines(a, b, evidence::frame::lineToLine);
    }

    [[nodiscard]] Linear angle(std::size_t a, std::size_t b) const {
        return ofLines(a, b, evidence::frame::angleBetween);
    }

  private:
    [[nodiscard]] Linear zero(double value) const {
        const std::size_t references = m_task.frame ? m_task.frame->references.size() : 0;
        return constant(value, m_marks.size(), references);
    }

    void addEnds(Linear& linear, std::size_t index, const Eigen::RowVector4d& by) const {
        const FittedMark& mark = m_marks[index];
        add(linear, index, mark, 0, by.head<2>());
        add(linear, index, mark, mark.covariance.rows() - 2, by.tail<2>());
    }

    template <class F>
    [[nodiscard]] Linear ofLines(std::size_t a, std::size_t b, const F& function) const {
        const auto& p = m_marks[a].points;
        const auto& q = m_marks[b].points;
        const evidence::frame::Derived<8> d = function(p.front(), p.back(), q.front(), q.back());
        Linear linear = zero(d.value);
        addEnds(linear, a, d.jacobian.head<4>());
        addEnds(linear, b, d.jacobian.tail<4>());
        return linear;
    }

    const Task& m_task;
    const std::vector<FittedMark>& m_marks;
};

/// What an entry measures, in px or rad; refused where its marks do not give that quantity.
Result<Linear> inPixels(const Task& task, std::size_t index, const std::vector<FittedMark>& marks) {
    const TaskEntry& entry = task.entries[index];
    const PixelQuantity pixels(task, marks);
    const std::size_t a = entry.marks[0];
    const std::string idA = task.marks[a].id;
    const std::string_view kindA = mark::kindName(marks[a].kind);
    if (entry.marks.size() == 1) {
        switch (entry.quantity) {
            case Quantity::Length:
                if (isLine(marks[a])) {
                    return pixels.run(a);
                }
                return wrong(index, "quantity",
                             fmt::format("mark \"{}\" is a {} and has no length; a segment has",
                                         idA, kindA));
            case Quantity::Diameter:
            case Quantity::Radius:
                if (marks[a].circle) {
                    return pixels.radius(a, entry.quantity == Quantity::Diameter ? 2 : 1);
                }
                return wrong(index, "quantity",
                             fmt::format("mark \"{}\" is a {}; a diameter or radius needs a circle",
                                         idA, kindA));
            case Quantity::Angle:
                return wrong(index, "quantity",
                             "an angle lies between two lines: use \"between\" with both");
        }
    }
    const std::size_t b = entry.marks[1];
    const std::string idB = task.marks[b].id;
    const bool lines = isLine(marks[a]) && isLine(marks[b]);
    if (entry.quantity == Quantity::Angle) {
        if (lines) {
            return pixels.angle(a, b);
        }
        return wrong(
            index, "between",
            fmt::format("an angle needs two lines or segments, not \"{}\" and \"{}\"", idA, idB));
    }
    if (entry.quantity != Quantity::Length) {
        return wrong(index, "quantity", "between two marks there is a length or an angle");
    }
    if (lines) {
        const double angle = pixels.angle(a, b).value;
        if (std::min(angle, std::numbers::pi - angle) > kParallelWithin) {
            return wrong(index, "between",
                         fmt::format("the lines \"{}\" and \"{}\" are not parallel: they meet at "
                                     "{:.3g} degrees",
                                     idA, idB, angle * 180 / std::numbers::pi));
        }
        return pixels.lineLine(a, b);
    }
    if (isPoint(marks[a]) && isPoint(marks[b])) {
        return pixels.pointPoint(a, b);
    }
    return isPoint(marks[a]) ? pixels.pointLine(a, b) : pixels.pointLine(b, a);
}

}  // namespace

Result<SolvedFrame> solveFrame(const Task& task, const std::vector<FittedMark>& marks) {
    const TaskFrame& given = *task.frame;
    SolvedFrame solved;
    if (given.model == "printed") {
        const auto printed = evidence::frame::printedScale(given.print.dpi, given.print.drawnScale,
                                                           given.print.uRelative);
        solved.scale = constant(printed.inchesPerPixel, marks.size(), 0);
        solved.scale.byPrint = 1;
        solved.uPrinted = printed.u;
        solved.uScale = printed.u;
        return solved;
    }
    const PixelQuantity pixels(task, marks);
    std::vector<Linear> lengths;
    std::vector<frame::ScaleReference> references;
    for (const TaskReference& reference : given.references) {
        const FittedMark& mark = marks[reference.mark];
        if (!isLine(mark) && !mark.circle) {
            return refuse(Code::BadValue, fmt::format("/frame/references/{}/mark", reference.index),
                          fmt::format("mark \"{}\" is a {} and has no length; a segment has, or a "
                                      "circle (its diameter)",
                                      task.marks[reference.mark].id, mark::kindName(mark.kind)));
        }
        lengths.push_back(mark.circle ? pixels.radius(reference.mark, 2)
                                      : pixels.run(reference.mark));
        references.push_back({lengths.back().value, std::sqrt(markVariance(lengths.back(), marks)),
                              reference.length.inches, reference.length.u(), reference.checkOnly});
        if (reference.length.exact) {
            solved.notes.push_back(
                fmt::format("the reference length of mark \"{}\" has no uncertainty and is taken "
                            "as exact",
                            task.marks[reference.mark].id));
        }
    }
    auto scale = frame::solveScale(references);
    if (!scale) {
        Refusal refusal = scale.error();
        refusal.place = "/frame" + refusal.place;
        return tl::unexpected(std::move(refusal));
    }
    solved.scale = constant(scale->inchesPerPixel, marks.size(), references.size());
    for (std::size_t i = 0; i < references.size(); ++i) {
        solved.scale = combined(solved.scale, 1, lengths[i], scale->byPixels[i]);
        solved.scale.byReference[i] += scale->byInches[i];
    }
    double variance = markVariance(solved.scale, marks);
    for (std::size_t i = 0; i < references.size(); ++i) {
        variance += std::pow(solved.scale.byReference[i] * references[i].uInches, 2);
    }
    solved.uScale = std::sqrt(variance);
    solved.parallelRelative = evidence::frame::parallelWithinRelative(given.parallelWithin);
    if (scale->redundancy > 0 &&
        scale->chi2 > scale->redundancy + 4 * std::sqrt(2.0 * scale->redundancy)) {
        solved.notes.push_back(fmt::format(
            "the references disagree by more than their uncertainties (chi2 {:.4g} with "
            "{} to spare): the sheet may be stretched, or the plane oblique",
            scale->chi2, scale->redundancy));
    }
    solved.fit = *std::move(scale);
    return solved;
}

Result<Answer> answerEntry(const Task& task, std::size_t index,
                           const std::vector<FittedMark>& marks, const SolvedFrame& frame) {
    const TaskEntry& entry = task.entries[index];
    auto pixels = inPixels(task, index, marks);
    if (!pixels) {
        return tl::unexpected(pixels.error());
    }
    if (!std::isfinite(pixels->value) ||
        (entry.quantity == Quantity::Length && !(pixels->value > 0))) {
        return wrong(index, entry.marks.size() == 1 ? "mark" : "between",
                     fmt::format("mark \"{}\" gives no length: its points coincide",
                                 task.marks[entry.marks[0]].id));
    }
    Answer answer;
    answer.id = entry.id;
    if (entry.quantity == Quantity::Angle) {
        const double degrees = 180 / std::numbers::pi;
        answer.value = pixels->value * degrees;
        answer.u = std::sqrt(markVariance(*pixels, marks)) * degrees;
        const double half = frame::halfWidth95(answer.u, 0);
        answer.low95 = answer.value - half;
        answer.high95 = answer.value + half;
        answer.unit = "deg";
        return answer;
    }
    Linear inches = combined(frame.scale, pixels->value, *pixels, frame.scale.value);
    inches.value = frame.scale.value * pixels->value;
    // Independent errors beside marks and references: standard ones, and half-widths.
    double variance = std::pow(inches.value * frame.parallelRelative, 2);
    double factor = 1;
    double rectangular = 0;  // the largest half-width; the others count as normal ones
    const auto addHalfWidth = [&](double half) {
        variance += std::pow(std::min(half, rectangular), 2) / 3;
        rectangular = std::max(half, rectangular);
    };
    if (entry.offPlane) {
        const auto off = evidence::frame::offPlaneFactor(entry.offPlane->offset.inches,
                                                         entry.offPlane->distance.inches);
        factor = off.value;
        variance *= factor * factor;
        variance += std::pow(inches.value * off.jacobian(0) * entry.offPlane->offset.normal, 2) +
                    std::pow(inches.value * off.jacobian(1) * entry.offPlane->distance.normal, 2);
        addHalfWidth(std::abs(inches.value * off.jacobian(0)) * entry.offPlane->offset.rectangular);
    }
    variance += factor * factor * markVariance(inches, marks);
    variance += std::pow(factor * inches.byPrint * frame.uPrinted, 2);
    for (std::size_t i = 0; i < inches.byReference.size(); ++i) {
        const KnownLength& length = task.frame->references[i].length;
        const double by = factor * inches.byReference[i];
        variance += std::pow(by * length.normal, 2);
        addHalfWidth(std::abs(by) * length.rectangular);
    }
    const double perUnit = *inchesPer(task.unit);
    const double half = frame::halfWidth95(std::sqrt(variance), rectangular) / perUnit;
    answer.value = factor * inches.value / perUnit;
    answer.u = std::sqrt(variance + rectangular * rectangular / 3) / perUnit;
    answer.low95 = answer.value - half;
    answer.high95 = answer.value + half;
    answer.unit = task.unit;
    return answer;
}

}  // namespace imaging::task

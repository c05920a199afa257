#include "imaging/task/quantities.h"

#include "evidence-core/frame/off_plane.h"
#include "imaging/frame/spread.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace imaging::task {
namespace {

using frame::Carrier;
using frame::Feature;
using frame::Tracked;
using frame::TrackedPoint;

constexpr double kParallelWithin = 10 * std::numbers::pi / 180;
/// A mark may lie this far beside the line of a `line` frame: px, or share of the stations' extent.
constexpr double kBesidePx = 4;
constexpr double kBesideShare = 0.03;

/// Measures one entry's marks.
class Measurer {
  public:
    Measurer(const Task& task, std::size_t index, const std::vector<mark::FittedMark>& marks,
             const SolvedFrame& frame)
        : m_task(task),
          m_marks(marks),
          m_index(index),
          m_entry(task.entries[index]),
          m_frame(frame),
          m_reader(frame.values, frame.lens),
          m_first(frame.inputs.size()) {}

    Result<Tracked> measured() {
        if (const auto* upright = std::get_if<frame::UprightSolution>(&m_frame.solution)) {
            return height(*upright);
        }
        if (m_entry.quantity == Quantity::Height) {
            return wrong("quantity", "a height needs a frame of model upright");
        }
        const auto carry = carrier();
        if (!carry) {
            return tl::unexpected(carry.error());
        }
        m_carry = *carry;
        if (auto beside = offTheLine()) {
            return tl::unexpected(*std::move(beside));
        }
        return m_entry.marks.size() == 1 ? single() : between();
    }

  private:
    [[nodiscard]] tl::unexpected<Refusal> wrong(const char* key, std::string help) const {
        return refuse(Code::BadValue, fmt::format("/measure/{}/{}", m_index, key), std::move(help));
    }
    [[nodiscard]] const char* marksKey() const {
        return m_entry.marks.size() == 1 ? "mark" : "between";
    }
    [[nodiscard]] const std::string& id(std::size_t i) const {
        return m_task.marks[m_entry.marks[i]].id;
    }
    [[nodiscard]] const Feature& feature(std::size_t i) const {
        return m_frame.features[m_entry.marks[i]];
    }
    [[nodiscard]] tl::unexpected<Refusal> beyond() const {
        return wrong(marksKey(),
                     fmt::format("mark \"{}\" lies at or beyond the vanishing line of the frame, "
                                 "where nothing can be measured",
                                 id(0)));
    }

    [[nodiscard]] Result<Carrier> carrier() const {
        if (const auto* scale = std::get_if<ScaleSolution>(&m_frame.solution)) {
            const Tracked s = scale->scale;
            return Carrier([s](const TrackedPoint& p) {
                return std::optional(TrackedPoint{s * p.x, s * p.y});
            });
        }
        if (const auto* plane = std::get_if<frame::PlaneSolution>(&m_frame.solution)) {
            return plane->carrier(m_first);
        }
        if (const auto* line = std::get_if<frame::LineSolution>(&m_frame.solution)) {
            return line->carrier(m_first);
        }
        const auto& camera = std::get<frame::CameraSolution>(m_frame.solution);
        const auto& three = *m_entry.plane;
        const auto plane = evidence::frame::planeThrough(three[0], three[1], three[2]);
        if (!plane) {
            return wrong("plane", "the three points lie on one line and give no plane");
        }
        return camera.carrier(*plane, m_first);
    }

    [[nodiscard]] std::optional<Refusal> offTheLine() const {
        const auto* line = std::get_if<frame::LineSolution>(&m_frame.solution);
        if (line == nullptr) {
            return std::nullopt;
        }
        for (std::size_t i = 0; i < m_entry.marks.size(); ++i) {
            for (const TrackedPoint& p : {m_reader.point(feature(i), 0),
                                          m_reader.point(feature(i), feature(i).points - 1)}) {
                const double beside = std::abs(line->map.beside(p.at()));
                if (beside > std::max(kBesidePx, kBesideShare * line->map.unit)) {
                    return wrong(marksKey(),
                                 fmt::format("mark \"{}\" lies {:.3g} px beside the line of the "
                                             "frame",
                                             id(i), beside))
                        .value();
                }
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] Result<Tracked> height(const frame::UprightSolution& upright) const {
        const bool one = m_entry.marks.size() == 1;
        const bool asked =
            m_entry.quantity == Quantity::Height || m_entry.quantity == Quantity::Length;
        if (!asked) {
            return wrong("quantity", "an upright frame gives heights only");
        }
        std::optional<Tracked> height;
        if (one && feature(0).isLine()) {
            height = upright.height(m_reader, feature(0), m_first);
        } else if (!one && feature(0).isPoint() && feature(1).isPoint()) {
            height = upright.height(m_reader.point(feature(0), 0), m_reader.point(feature(1), 0),
                                    m_first);
        } else {
            return wrong(marksKey(),
                         "a height is taken of a segment from the ground up, or between two "
                         "points, the one on the ground first");
        }
        if (!height || !(height->value > 0)) {
            return wrong(marksKey(), fmt::format("the base of mark \"{}\" lies on the horizon, or "
                                                 "it has no height",
                                                 id(0)));
        }
        return *height;
    }

    [[nodiscard]] Result<Tracked> single() const {
        switch (m_entry.quantity) {
            case Quantity::Length:
                return length();
            case Quantity::Diameter:
            case Quantity::Radius:
                return round();
            case Quantity::Angle:
                return wrong("quantity",
                             "an angle lies between two lines: use \"between\" with "
                             "both");
            case Quantity::Pitch:
                return pitch();
            case Quantity::Height:
                break;
        }
        return wrong("quantity", "a height needs a frame of model upright");
    }

    /// Step of a pattern: slope of the teeth's places, carried, over their numbers (least squares).
    [[nodiscard]] Result<Tracked> pitch() const {
        if (feature(0).kind != mark::MarkKind::Pattern) {
            return wrong("quantity", fmt::format("mark \"{}\" is a {}; a pitch needs a pattern",
                                                 id(0), mark::kindName(feature(0).kind)));
        }
        const std::vector<int>& numbers = m_marks[m_entry.marks[0]].teeth;
        std::vector<TrackedPoint> teeth;
        double mean = 0;
        for (const TrackedPoint& p : m_reader.all(feature(0))) {
            const auto q = m_carry(p);
            if (!q) {
                return beyond();
            }
            mean += numbers[teeth.size()] / static_cast<double>(numbers.size());
            teeth.push_back(*q);
        }
        const Eigen::Vector2d along = (teeth.back().at() - teeth.front().at()).normalized();
        double squares = 0;
        for (const int k : numbers) {
            squares += (k - mean) * (k - mean);
        }
        double value = 0;
        std::vector<std::pair<double, const Tracked*>> parts;
        for (std::size_t i = 0; i < teeth.size(); ++i) {
            const double weight = (numbers[i] - mean) / squares;
            value += weight * along.dot(teeth[i].at());
            parts.emplace_back(weight * along.x(), &teeth[i].x);
            parts.emplace_back(weight * along.y(), &teeth[i].y);
        }
        return frame::chained(value, parts);
    }

    /// Arc length of a curve's points, carried: chords, each longer by θ²/24 for the turn θ of the
    /// course over it.
    [[nodiscard]] Result<Tracked> arcLength() const {
        std::vector<TrackedPoint> course;
        for (const TrackedPoint& p : m_reader.all(feature(0))) {
            const auto q = m_carry(p);
            if (!q) {
                return beyond();
            }
            course.push_back(*q);
        }
        const std::size_t chords = course.size() - 1;
        std::vector<double> turns(chords + 1, 0);  // at the inner points
        for (std::size_t i = 1; i < chords; ++i) {
            const Eigen::Vector2d a = course[i].at() - course[i - 1].at();
            const Eigen::Vector2d b = course[i + 1].at() - course[i].at();
            turns[i] = std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
        }
        std::vector<Tracked> lengths;
        lengths.reserve(chords);
        std::vector<std::pair<double, const Tracked*>> parts;
        double value = 0;
        for (std::size_t i = 0; i < chords; ++i) {
            const double left = i == 0 ? turns[1] : turns[i];
            const double right = i + 1 == chords ? turns[i] : turns[i + 1];
            const double turn = 0.5 * (left + right);
            lengths.push_back(frame::distance(course[i], course[i + 1]));
            const double factor = 1 + turn * turn / 24;
            value += factor * lengths.back().value;
            parts.emplace_back(factor, &lengths.back());
        }
        return frame::chained(value, parts);
    }

    [[nodiscard]] Result<Tracked> length() const {
        if (feature(0).kind == mark::MarkKind::Curve) {
            return arcLength();
        }
        if (!feature(0).isLine()) {
            return wrong(
                "quantity",
                fmt::format("mark \"{}\" is a {} and has no length; a segment or curve has", id(0),
                            mark::kindName(feature(0).kind)));
        }
        const auto length = frame::carriedLength(m_reader, feature(0), m_carry);
        return length ? Result<Tracked>(*length) : beyond();
    }

    [[nodiscard]] Result<Tracked> round() const {
        if (!feature(0).isRound()) {
            return wrong("quantity",
                         fmt::format("mark \"{}\" is a {}; a diameter or radius needs a circle",
                                     id(0), mark::kindName(feature(0).kind)));
        }
        if (std::holds_alternative<frame::LineSolution>(m_frame.solution)) {
            return wrong("quantity", "a line frame gives lengths along its line only");
        }
        const double times = m_entry.quantity == Quantity::Diameter ? 2 : 1;
        if (feature(0).kind == mark::MarkKind::Ellipse && !inPerspective()) {
            const auto greater = greaterHalfAxis();
            return greater ? Result<Tracked>(times * *greater) : beyond();
        }
        const auto circle = frame::carriedCircle(m_reader, feature(0), m_carry);
        return circle ? Result<Tracked>(times * circle->radius) : beyond();
    }

    [[nodiscard]] bool inPerspective() const {
        const auto* plane = std::get_if<frame::PlaneSolution>(&m_frame.solution);
        return (plane != nullptr && m_task.frame->model == FrameModel::Plane) ||
               std::holds_alternative<frame::CameraSolution>(m_frame.solution);
    }

    /// The greater half-axis of the ellipse as carried (affine): the greater singular value of its
    /// two half-axes, σ = uᵀMv, whose derivative is uᵀ(dM)v.
    [[nodiscard]] std::optional<Tracked> greaterHalfAxis() const {
        const auto axes = m_reader.axes(feature(0));
        const auto middle = m_carry(axes.middle);
        const auto first = m_carry(axes.first);
        const auto second = m_carry(axes.second);
        if (!middle || !first || !second) {
            return std::nullopt;
        }
        Eigen::Matrix2d m;
        m.col(0) = first->at() - middle->at();
        m.col(1) = second->at() - middle->at();
        const Eigen::JacobiSVD<Eigen::Matrix2d> svd(m, Eigen::ComputeFullU | Eigen::ComputeFullV);
        const Eigen::Vector2d u = svd.matrixU().col(0);
        const Eigen::Vector2d v = svd.matrixV().col(0);
        const Tracked x = v(0) * (first->x - middle->x) + v(1) * (second->x - middle->x);
        const Tracked y = v(0) * (first->y - middle->y) + v(1) * (second->y - middle->y);
        return u(0) * x + u(1) * y;
    }

    /// Both ends of a line or segment, carried.
    [[nodiscard]] std::optional<std::pair<TrackedPoint, TrackedPoint>> ends(std::size_t i) const {
        const auto p = m_carry(m_reader.firstPoint(feature(i)));
        const auto q = m_carry(m_reader.lastPoint(feature(i)));
        return p && q ? std::optional(std::pair(*p, *q)) : std::nullopt;
    }

    [[nodiscard]] Result<Tracked> between() const {
        const bool lines = feature(0).isLine() && feature(1).isLine();
        const bool onLine = std::holds_alternative<frame::LineSolution>(m_frame.solution);
        if (m_entry.quantity == Quantity::Angle) {
            if (!lines) {
                return wrong("between",
                             fmt::format("an angle needs two lines or segments, not \"{}\" and "
                                         "\"{}\"",
                                         id(0), id(1)));
            }
            return onLine ? wrong("quantity", "a line frame gives lengths along its line only")
                          : ofLines();
        }
        if (m_entry.quantity != Quantity::Length) {
            return wrong("quantity", "between two marks there is a length or an angle");
        }
        if (lines && !onLine) {
            return ofLines();
        }
        if (feature(0).isPoint() && feature(1).isPoint()) {
            const auto p = frame::carriedPoint(m_reader, feature(0), m_carry);
            const auto q = frame::carriedPoint(m_reader, feature(1), m_carry);
            return p && q ? Result<Tracked>(frame::distance(*p, *q)) : beyond();
        }
        const std::size_t point = feature(0).isPoint() ? 0 : 1;
        if (!feature(point).isPoint() || !feature(1 - point).isLine() || onLine) {
            return wrong("between",
                         fmt::format("a length lies between two points, a point and a line, or two "
                                     "parallel lines, not between \"{}\" and \"{}\"",
                                     id(0), id(1)));
        }
        const auto p = frame::carriedPoint(m_reader, feature(point), m_carry);
        const auto line = ends(1 - point);
        return p && line ? Result<Tracked>(frame::distanceToLine(*p, line->first, line->second))
                         : beyond();
    }

    [[nodiscard]] Result<Tracked> ofLines() const {
        const auto a = ends(0);
        const auto b = ends(1);
        if (!a || !b) {
            return beyond();
        }
        const Tracked angle = frame::angleOfLines(a->first, a->second, b->first, b->second);
        if (m_entry.quantity == Quantity::Angle) {
            return angle;
        }
        if (std::min(angle.value, std::numbers::pi - angle.value) > kParallelWithin) {
            return wrong("between",
                         fmt::format("the lines \"{}\" and \"{}\" are not parallel: they meet at "
                                     "{:.3g} degrees",
                                     id(0), id(1), angle.value * 180 / std::numbers::pi));
        }
        return frame::distanceOfLines(a->first, a->second, b->first, b->second);
    }

    const Task& m_task;
    const std::vector<mark::FittedMark>& m_marks;
    std::size_t m_index;
    const TaskEntry& m_entry;
    const SolvedFrame& m_frame;
    frame::Reader m_reader;
    int m_first;
    Carrier m_carry;
};

/// The value times its off-plane factor, with what else adds to its doubt.
struct Corrected {
    Tracked value;           ///< on inputs
    double variance = 0;     ///< of independent errors beside the inputs
    double rectangular = 0;  ///< half-width of one such error
};

Result<Corrected> offPlane(const Task& task, std::size_t index, const SolvedFrame& frame,
                           const Tracked& measured) {
    const TaskEntry& entry = task.entries[index];
    Corrected result{measured, std::pow(measured.value * frame.parallelRelative, 2), 0};
    if (!entry.offPlane) {
        return result;
    }
    const OffPlane& term = *entry.offPlane;
    Tracked distance;
    double uDistance = 0;
    if (term.distance) {
        distance = frame::constant(term.distance->inches);
        uDistance = term.distance->normal;
    } else {
        const auto& camera = std::get<frame::CameraSolution>(frame.solution);
        const auto& three = *entry.plane;
        const auto plane = evidence::frame::planeThrough(three[0], three[1], three[2]);
        distance = frame.folded(camera.distance(*plane, frame.inputs.size()));
    }
    if (!(distance.value > 0 && term.offset.inches < distance.value)) {
        return refuse(Code::BadValue, fmt::format("/measure/{}/off_plane", index),
                      "the offset reaches to the camera or beyond");
    }
    const auto off = evidence::frame::offPlaneFactor(term.offset.inches, distance.value);
    const double length = measured.value;
    result.variance *= off.value * off.value;
    result.variance += std::pow(length * off.jacobian(0) * term.offset.normal, 2) +
                       std::pow(length * off.jacobian(1) * uDistance, 2);
    result.rectangular = std::abs(length * off.jacobian(0)) * term.offset.rectangular;
    result.value = frame::chained(length * off.value,
                                  {{off.value, &measured}, {length * off.jacobian(1), &distance}});
    return result;
}

}  // namespace

Result<Answer> answerEntry(const Task& task, std::size_t index,
                           const std::vector<mark::FittedMark>& marks, const SolvedFrame& frame) {
    const TaskEntry& entry = task.entries[index];
    auto measured = Measurer(task, index, marks, frame).measured();
    if (!measured) {
        return tl::unexpected(measured.error());
    }
    const Tracked raw = frame.folded(*measured);
    const char* key = entry.marks.size() == 1 ? "mark" : "between";
    if (!std::isfinite(raw.value) || (entry.quantity == Quantity::Length && !(raw.value > 0))) {
        return refuse(Code::BadValue, fmt::format("/measure/{}/{}", index, key),
                      fmt::format("mark \"{}\" gives no length: its points coincide",
                                  task.marks[entry.marks[0]].id));
    }
    Answer answer;
    answer.id = entry.id;
    double perUnit = 1;
    Corrected corrected{raw, 0, 0};
    if (entry.quantity == Quantity::Angle) {
        perUnit = std::numbers::pi / 180;
        answer.unit = "deg";
    } else {
        auto result = offPlane(task, index, frame, raw);
        if (!result) {
            return tl::unexpected(result.error());
        }
        corrected = *std::move(result);
        perUnit = *inchesPer(task.unit);
        answer.unit = task.unit;
    }
    // The largest half-width stands alone; the others count as normal ones.
    const auto spread = frame.inputs.spreadOf(corrected.value);
    double variance = spread.variance + corrected.variance +
                      std::pow(std::min(spread.rectangular, corrected.rectangular), 2) / 3;
    const double rectangular = std::max(spread.rectangular, corrected.rectangular);
    const double half = frame::halfWidth95(std::sqrt(variance), rectangular) / perUnit;
    answer.value = corrected.value.value / perUnit;
    answer.u = std::sqrt(variance + rectangular * rectangular / 3) / perUnit;
    answer.low95 = answer.value - half;
    answer.high95 = answer.value + half;
    if (!std::isfinite(answer.value) || !std::isfinite(answer.u)) {
        return refuse(Code::NoSolution, fmt::format("/measure/{}/{}", index, key),
                      fmt::format("mark \"{}\" lies where the frame gives no finite size",
                                  task.marks[entry.marks[0]].id));
    }
    return answer;
}

}  // namespace imaging::task

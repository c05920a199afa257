#include "imaging/task/frame_of_task.h"

#include "evidence-core/frame/printed.h"
#include "evidence-core/frame/uniform.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace imaging::task {
namespace {

using frame::Carrier;
using frame::Feature;
using frame::Tracked;
using frame::TrackedPoint;
using mark::FittedMark;

/// δ₀ for a test at α₀ = 0.001 (two-sided) with power 0.80: 3.2905 + 0.8416.
constexpr double kDetectable = 4.1321;

/// Shear of a sheet where two directions leave it open (domain.md, "Frames").
constexpr double kShearPrior = 0.002;
/// Two directions nearer than this count as one.
constexpr double kOneDirection = 1.0;  // degrees

/// What real pictures show beyond the noise of their pixels: corners of boards with known truth
/// scatter 0.29 px per axis about a plane after distortion is taken out, where their own noise is
/// 0.12 px. It counts like kFloorWeight observations beside those of the picture at hand.
constexpr double kFloorPx = 0.26;
constexpr double kFloorWeight = 4;

/// How far beyond the straight lines the lens' distortion is carried with a note, and at all.
constexpr double kBeyond = 1.05;
constexpr double kFarBeyond = 1.5;

/// Principal point of an uncropped print: its middle, within 2 % of its width (exchange.md).
constexpr double kPrincipalShare = 0.02;

bool inPerspective(FrameModel model) {
    return model == FrameModel::Plane || model == FrameModel::Line ||
           model == FrameModel::Upright || model == FrameModel::Camera;
}

class FrameBuilder {
  public:
    FrameBuilder(const Task& task, const std::vector<FittedMark>& marks, const PictureSize& picture,
                 const std::optional<frame::LensSolution>& lens)
        : m_task(task), m_given(*task.frame), m_marks(marks), m_picture(picture), m_lens(lens) {}

    Result<SolvedFrame> build(double floorPx) {
        m_solved = {};
        m_known = {};
        m_solved.floorPx = floorPx;
        for (const FittedMark& mark : m_marks) {
            const double extra = mark.made == mark::Fit::None ? 0 : floorPx;
            m_solved.features.push_back(frame::addMark(m_solved.inputs, mark, extra));
        }
        m_markNumbers = m_solved.inputs.size();
        if (m_lens) {
            if (auto wrong = withinTheLens()) {
                return tl::unexpected(*std::move(wrong));
            }
            m_solved.lensFit = m_lens;
            m_solved.lens = frame::LensInput{
                m_solved.inputs.addBlock(m_lens->lens.parameters, m_lens->covariance),
                m_lens->lens.unit};
        }
        if (auto wrong = gather()) {
            return tl::unexpected(*std::move(wrong));
        }
        if (auto wrong = solve()) {
            wrong->place = "/frame" + wrong->place;
            return tl::unexpected(*std::move(wrong));
        }
        finish();
        return std::move(m_solved);
    }

  private:
    [[nodiscard]] const std::string& idOf(std::size_t mark) const { return m_task.marks[mark].id; }

    /// Marks far beyond the straight lines that gave the distortion are refused, those a little
    /// beyond are named.
    std::optional<Refusal> withinTheLens() {
        std::string beyond;
        for (std::size_t i = 0; i < m_marks.size(); ++i) {
            for (const mark::PixelPoint& p : m_marks[i].points) {
                const double away =
                    (p - mark::PixelPoint(m_lens->lens.parameters.head<2>())).norm();
                if (away > kFarBeyond * m_lens->reach ||
                    !evidence::frame::unfolds(m_lens->lens, p)) {
                    return Refusal{
                        Code::BadValue, fmt::format("/marks/{}", i),
                        fmt::format(
                            "mark \"{}\" lies {:.0f} px from the middle of the lens, but the "
                            "straight lines say nothing of it beyond {:.0f} px: add "
                            "straight lines nearer to the mark",
                            idOf(i), away, m_lens->reach)};
                }
                if (away > kBeyond * m_lens->reach) {
                    beyond += beyond.empty() ? idOf(i) : ", " + idOf(i);
                    break;
                }
            }
        }
        if (!beyond.empty()) {
            m_solved.notes.push_back(
                fmt::format("beyond the reach of the straight lines ({:.0f} px from the middle), "
                            "where the distortion is extrapolated: {}",
                            m_lens->reach, beyond));
        }
        return std::nullopt;
    }

    std::optional<Refusal> gather() {
        for (const TaskPoint& point : m_given.points) {
            const Feature& feature = m_solved.features[point.mark];
            if (!feature.isPoint()) {
                return Refusal{Code::BadValue, fmt::format("/frame/points/{}/mark", point.index),
                               fmt::format("mark \"{}\" is a {}; a known point needs a point or a "
                                           "circle",
                                           idOf(point.mark), mark::kindName(feature.kind))};
            }
            frame::KnownPoint known{feature, {}};
            for (const double value : point.at) {
                known.at.push_back(
                    {value, point.u > 0 ? m_solved.inputs.addNumber(value, point.u) : -1});
            }
            m_known.points.push_back(std::move(known));
        }
        for (const TaskReference& reference : m_given.references) {
            const Feature& feature = m_solved.features[reference.mark];
            if (!feature.isLine() && !feature.isRound()) {
                return Refusal{
                    Code::BadValue, fmt::format("/frame/references/{}/mark", reference.index),
                    fmt::format("mark \"{}\" is a {} and has no length; a segment has, or a "
                                "circle (its diameter)",
                                idOf(reference.mark), mark::kindName(feature.kind))};
            }
            m_lengths.push_back(m_solved.inputs.addNumber(
                reference.length.inches, reference.length.normal, reference.length.rectangular));
            if (!reference.checkOnly) {
                m_known.spans.push_back({feature, m_lengths.back()});
                m_adjusting.push_back(&reference);
            }
            if (reference.length.exact) {
                m_solved.notes.push_back(
                    fmt::format("the reference length of mark \"{}\" has no uncertainty and is "
                                "taken as exact",
                                idOf(reference.mark)));
            }
        }
        std::optional<Refusal> wrong;
        const auto group = [&](const MarkGroup& marks, const std::string& place) {
            std::vector<Feature> features;
            for (std::size_t i = 0; i < marks.size(); ++i) {
                const Feature& feature = m_solved.features[marks[i]];
                if (!feature.isLine() && !wrong) {
                    wrong = Refusal{Code::BadValue, fmt::format("{}/{}", place, i),
                                    fmt::format("mark \"{}\" is a {}; a line or segment is needed",
                                                idOf(marks[i]), mark::kindName(feature.kind))};
                }
                features.push_back(feature);
            }
            return features;
        };
        const auto groups = [&](const std::vector<MarkGroup>& lists, const char* key) {
            std::vector<std::vector<Feature>> result;
            for (std::size_t i = 0; i < lists.size(); ++i) {
                result.push_back(group(lists[i], fmt::format("/frame/{}/{}", key, i)));
            }
            return result;
        };
        m_known.parallel = groups(m_given.parallel, "parallel");
        m_known.square = groups(m_given.square, "square");
        m_known.ground = groups(m_given.ground, "ground");
        m_known.vertical = group(m_given.vertical, "/frame/vertical");
        m_known.lens = m_solved.lens;
        return wrong;
    }

    std::optional<Refusal> solve() {
        switch (m_given.model) {
            case FrameModel::Uniform:
            case FrameModel::Printed:
                return solveScale();
            case FrameModel::Stretch:
                return take(frame::solvePlane(m_solved.inputs, m_known, frame::PlaneKind::Stretched,
                                              stretchPriors()));
            case FrameModel::Plane:
                return take(
                    frame::solvePlane(m_solved.inputs, m_known, frame::PlaneKind::Perspective));
            case FrameModel::Line:
                return take(frame::solveLine(m_solved.inputs, m_known));
            case FrameModel::Upright:
                return take(frame::solveUpright(m_solved.inputs, m_known));
            case FrameModel::Camera:
                break;
        }
        const mark::PixelPoint middle(0.5 * (m_picture.width - 1), 0.5 * (m_picture.height - 1));
        const mark::PixelPoint at = m_given.principal.value_or(middle);
        const double u = m_given.uPrincipal.value_or(kPrincipalShare * m_picture.width);
        const int principal = m_solved.inputs.addNumber(at.x(), u);
        m_solved.inputs.addNumber(at.y(), u);
        return take(frame::solveCamera(m_solved.inputs, m_known, principal, m_picture.width));
    }

    template <class S>
    std::optional<Refusal> take(Result<S> solution) {
        if (!solution) {
            return solution.error();
        }
        m_solved.notes.insert(m_solved.notes.end(), solution->notes.begin(), solution->notes.end());
        m_solved.solution = *std::move(solution);
        return std::nullopt;
    }

    frame::StretchPriors stretchPriors() {
        frame::StretchPriors priors;
        if (m_given.print) {
            const auto printed = evidence::frame::printedScale(
                m_given.print->dpi, m_given.print->drawnScale, m_given.print->uRelative);
            priors.scaleX = m_solved.inputs.addNumber(printed.inchesPerPixel, printed.u);
            priors.scaleY = m_solved.inputs.addNumber(printed.inchesPerPixel, printed.u);
        }
        if (directions() < 3 && m_known.square.empty() && m_known.points.size() < 3) {
            priors.shear = m_solved.inputs.addNumber(0, kShearPrior);
        }
        return priors;
    }

    /// How many different directions the known lengths run in; a round mark has all.
    [[nodiscard]] int directions() const {
        std::vector<double> bearings;  // degrees
        for (const frame::KnownSpan& span : m_known.spans) {
            if (span.feature.isRound()) {
                return 3;
            }
            const FittedMark& mark = m_marks[markOf(span.feature)];
            const mark::PixelPoint d = mark.points.back() - mark.points.front();
            const double bearing = std::atan2(d.y(), d.x()) * 180 / std::numbers::pi;
            const bool known = std::any_of(bearings.begin(), bearings.end(), [&](double other) {
                return std::abs(std::remainder(bearing - other, 180)) < kOneDirection;
            });
            if (!known) {
                bearings.push_back(bearing);
            }
        }
        return static_cast<int>(bearings.size());
    }

    [[nodiscard]] std::size_t markOf(const Feature& feature) const {
        for (std::size_t i = 0; i < m_solved.features.size(); ++i) {
            if (m_solved.features[i].first == feature.first) {
                return i;
            }
        }
        return 0;
    }

    std::optional<Refusal> solveScale() {
        ScaleSolution solution;
        if (m_given.model == FrameModel::Printed) {
            const auto printed = evidence::frame::printedScale(
                m_given.print->dpi, m_given.print->drawnScale, m_given.print->uRelative);
            solution.scale =
                m_solved.inputs.at(m_solved.inputs.addNumber(printed.inchesPerPixel, printed.u));
            solution.uScale = printed.u;
            m_solved.solution = std::move(solution);
            return std::nullopt;
        }
        setValues();
        const frame::Reader reader = m_solved.reader();
        const Carrier asItIs = [](const TrackedPoint& p) { return std::optional(p); };
        std::vector<Tracked> lengths;
        std::vector<frame::ScaleReference> references;
        for (std::size_t i = 0; i < m_given.references.size(); ++i) {
            const TaskReference& given = m_given.references[i];
            const auto length = frame::carriedLength(reader, m_solved.features[given.mark], asItIs);
            if (!length) {
                return Refusal{Code::NoSolution, fmt::format("/references/{}", given.index),
                               fmt::format("mark \"{}\" gives no circle", idOf(given.mark))};
            }
            references.push_back({length->value, m_solved.inputs.spreadOf(*length).u(),
                                  given.length.inches, given.length.u(), given.checkOnly});
            lengths.push_back(*length);
        }
        auto scale = frame::solveScale(references);
        if (!scale) {
            return scale.error();
        }
        std::vector<std::pair<double, const Tracked*>> parts;
        std::vector<Tracked> inches;
        for (const int input : m_lengths) {
            inches.push_back(m_solved.inputs.at(input));
        }
        for (std::size_t i = 0; i < lengths.size(); ++i) {
            parts.emplace_back(scale->byPixels[i], &lengths[i]);
            parts.emplace_back(scale->byInches[i], &inches[i]);
            const frame::ScaleResidual& r = scale->residuals[i];
            m_solved.references.push_back({m_given.references[i].mark, r.residual, r.w, r.mde});
        }
        solution.scale = frame::chained(scale->inchesPerPixel, parts);
        solution.uScale = m_solved.inputs.spreadOf(solution.scale).u();
        m_solved.rmsPx = scale->rmsPx;
        m_solved.parallelRelative = evidence::frame::parallelWithinRelative(m_given.parallelWithin);
        noteMisfit(scale->chi2, scale->redundancy,
                   "the sheet may be stretched, or the plane oblique");
        solution.fit = *std::move(scale);
        m_solved.solution = std::move(solution);
        return std::nullopt;
    }

    void noteMisfit(double chi2, int redundancy, const char* why) {
        if (redundancy > 0 && chi2 > redundancy + 4 * std::sqrt(2.0 * redundancy)) {
            m_solved.notes.push_back(
                fmt::format("the references disagree by more than their uncertainties (chi2 "
                            "{:.4g} with {} to spare): {}",
                            chi2, redundancy, why));
        }
    }

    void setValues() {
        m_solved.values = Eigen::Map<const Eigen::VectorXd>(
            m_solved.inputs.values().data(),
            static_cast<Eigen::Index>(m_solved.inputs.values().size()));
    }

    void finish() {
        setValues();
        const frame::Adjustment* adjustment = m_solved.adjustment();
        if (adjustment == nullptr) {
            return;
        }
        double squares = 0;
        double count = 0;
        for (int i = 0; i < m_markNumbers; ++i) {
            if (adjustment->byInputs.col(i).squaredNorm() > 0) {
                squares += std::pow(adjustment->inputs(i) - m_solved.values(i), 2);
                count += 1;
            }
        }
        m_solved.rmsPx = count > 0 ? std::sqrt(squares / count) : 0;
        noteMisfit(adjustment->chi2, adjustment->redundancy,
                   "a mark or a known value may be wrong, or the lens distorts: its straight "
                   "lines are not straight");
        const frame::Solution& solution = *commonSolution();
        if (solution.pointRow >= 0) {
            for (std::size_t i = 0; i < m_given.points.size(); ++i) {
                m_solved.points.push_back({m_given.points[i].mark,
                                           pointResidual(solution, static_cast<int>(i)),
                                           pointW(solution, static_cast<int>(i)), std::nullopt});
            }
        }
        int span = 0;
        for (std::size_t i = 0; i < m_given.references.size(); ++i) {
            const TaskReference& reference = m_given.references[i];
            Check check;
            check.mark = reference.mark;
            if (reference.checkOnly) {
                checkOnly(i, check);
            } else if (solution.spanRow >= 0) {
                const int row = solution.spanRow + span++;
                check.residual = -adjustment->residuals(row);
                const double u = adjustment->uResiduals(row);
                if (u > 0) {
                    check.w = check.residual / u;
                    check.mde = kDetectable * u / adjustment->redundancies(row);
                }
            } else {
                continue;
            }
            m_solved.references.push_back(check);
        }
    }

    /// A length for checking: predicted through the frame, without a say in it.
    void checkOnly(std::size_t i, Check& check) const {
        const Feature& feature = m_solved.features[m_given.references[i].mark];
        std::optional<Tracked> length;
        const frame::Reader reader = m_solved.reader();
        const int first = m_solved.inputs.size();
        if (const auto* plane = std::get_if<frame::PlaneSolution>(&m_solved.solution)) {
            length = frame::carriedLength(reader, feature, plane->carrier(first));
        } else if (const auto* line = std::get_if<frame::LineSolution>(&m_solved.solution)) {
            length = frame::carriedLength(reader, feature, line->carrier(first));
        } else if (const auto* upright = std::get_if<frame::UprightSolution>(&m_solved.solution)) {
            length = upright->height(reader, feature, first);
        }
        if (!length) {
            return;
        }
        const Tracked off = m_solved.folded(m_solved.inputs.at(m_lengths[i]) - *length);
        check.residual = off.value;
        const double u = m_solved.inputs.spreadOf(off).u();
        if (u > 0) {
            check.w = off.value / u;
            check.mde = kDetectable * u;
        }
    }

    [[nodiscard]] double pointResidual(const frame::Solution& solution, int i) const {
        const int row = solution.pointRow + i * solution.rowsOfPoint;
        return solution.adjustment.residuals.segment(row, solution.rowsOfPoint).norm();
    }

    /// The greater of the coordinates' own, for they are tested one by one.
    [[nodiscard]] std::optional<double> pointW(const frame::Solution& solution, int i) const {
        std::optional<double> most;
        for (int k = 0; k < solution.rowsOfPoint; ++k) {
            const int row = solution.pointRow + i * solution.rowsOfPoint + k;
            const double u = solution.adjustment.uResiduals(row);
            if (u > 0) {
                most = std::max(most.value_or(0), std::abs(solution.adjustment.residuals(row)) / u);
            }
        }
        return most;
    }

    [[nodiscard]] const frame::Solution* commonSolution() const {
        return std::visit(
            [](const auto& s) -> const frame::Solution* {
                if constexpr (std::is_base_of_v<frame::Solution, std::decay_t<decltype(s)>>) {
                    return &s;
                } else {
                    return nullptr;
                }
            },
            m_solved.solution);
    }

    const Task& m_task;
    const TaskFrame& m_given;
    const std::vector<FittedMark>& m_marks;
    PictureSize m_picture;
    const std::optional<frame::LensSolution>& m_lens;
    SolvedFrame m_solved;
    frame::Known m_known;
    std::vector<int> m_lengths;  ///< inputs, one for each reference
    std::vector<const TaskReference*> m_adjusting;
    int m_markNumbers = 0;
};

}  // namespace

const frame::Adjustment* SolvedFrame::adjustment() const {
    return std::visit(
        [](const auto& s) -> const frame::Adjustment* {
            if constexpr (std::is_base_of_v<frame::Solution, std::decay_t<decltype(s)>>) {
                return &s.adjustment;
            } else {
                return nullptr;
            }
        },
        solution);
}

frame::Tracked SolvedFrame::folded(const frame::Tracked& number) const {
    const frame::Adjustment* solved = adjustment();
    return solved == nullptr ? number : frame::onInputs(number, inputs, *solved);
}

Result<SolvedFrame> solveFrame(const Task& task, const std::vector<FittedMark>& marks,
                               const PictureSize& picture,
                               const std::optional<frame::LensSolution>& lens) {
    const bool fitted = std::any_of(marks.begin(), marks.end(), [](const FittedMark& mark) {
        return mark.made != mark::Fit::None;
    });
    const bool floored = fitted && inPerspective(task.frame->model);
    auto solved = FrameBuilder(task, marks, picture, lens).build(floored ? kFloorPx : 0);
    if (!solved || !floored) {
        return solved;
    }
    // What this picture's own residuals say of the floor, beside what others have shown.
    const frame::Adjustment* adjustment = solved->adjustment();
    if (adjustment == nullptr || adjustment->redundancy < 1) {
        return solved;
    }
    const double share =
        (kFloorWeight + adjustment->chi2) / (kFloorWeight + adjustment->redundancy);
    return FrameBuilder(task, marks, picture, lens).build(kFloorPx * std::sqrt(share));
}

}  // namespace imaging::task

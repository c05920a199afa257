#include "evidence-core/frame/unequal_stretch.h"
#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace evidence::judgement {

namespace {

bool isUnsupported(const std::optional<record::Basis>& basis,
                   const std::optional<record::SourceId>& source) {
    if (!basis) return !source;
    return *basis == record::Basis::Guessed || *basis == record::Basis::Assumed;
}

void addUnscaled(const Context& c, const network::FrameSolution& frame,
                 std::vector<Finding>& findings) {
    const auto& entered = *c.index.frame(frame.id.text);
    const auto* source = c.index.sourceOfFile(entered.file.text);
    findings.push_back(made(
        "unscaled", {record::any(frame.id)},
        fmt::format("The scale of {} has no known length, so nothing measured through it has a "
                    "size.",
                    source ? nameOf(*source) : "a picture"),
        "Mark something on the picture whose length is known, and say where that is known from."));
}

void addUnsupported(const Context& c, const network::FrameSolution& frame,
                    std::vector<Finding>& findings) {
    const auto& entered = *c.index.frame(frame.id.text);
    const std::string settle =
        "Find a source for this length: a figured drawing, a published standard or a surviving "
        "part.";
    for (std::size_t k = 0; k < entered.references.size(); ++k) {
        const auto& reference = entered.references[k];
        if (reference.setAside || k >= frame.references.size() || !frame.references[k].used)
            continue;
        const std::string leaf = fmt::format("{}/{}", frame.id.text, k);
        std::vector<record::AnyId> on{record::any(frame.id), {leaf}};
        std::string why;
        if (reference.length.dimension) {
            const auto at = c.dimensionAt.find(reference.length.dimension->text);
            if (at == c.dimensionAt.end() || !c.solution.dimensions[at->second].restsOnGuess)
                continue;
            why = "itself rests on a guess";
        } else if (isUnsupported(reference.length.basis, reference.length.source)) {
            why = reference.length.basis ? "is only assumed" : "has neither source nor basis";
        } else {
            continue;
        }
        std::vector<std::pair<std::string, double>> numbers;
        if (frame.references[k].length) numbers.emplace_back("length", *frame.references[k].length);
        findings.push_back(
            made("unsupported-reference", std::move(on),
                 sentence(fmt::format("{} {}; everything measured through it hangs on that.",
                                      nameOfLeaf(c.index, leaf), why)),
                 settle, std::move(numbers)));
    }
    for (const auto& point : entered.points)
        if (isUnsupported(point.basis, point.source)) {
            findings.push_back(
                made("unsupported-reference", {record::any(frame.id), record::any(point.mark)},
                     sentence(fmt::format("A known point of {} has neither source nor basis.",
                                          nameOf(c.index, entered))),
                     settle));
        }
    if (entered.print && isUnsupported(entered.print->basis, std::nullopt) &&
        entered.print->basis) {
        findings.push_back(made("unsupported-reference", {record::any(frame.id)},
                                sentence(fmt::format("{}, taken from the resolution of the scan, "
                                                     "is only assumed.",
                                                     nameOf(c.index, entered))),
                                settle));
    }
}

/// Known lengths of a frame as they lie on its sheet, by segments that count.
std::vector<frame::KnownVector> knownVectors(const Context& c, const record::Frame& entered,
                                             const network::FrameSolution& solved) {
    std::vector<frame::KnownVector> list;
    for (std::size_t k = 0; k < entered.references.size() && k < solved.references.size(); ++k) {
        const auto& reference = solved.references[k];
        const auto* mark = c.index.mark(entered.references[k].mark.text);
        if (!(reference.used || reference.checked) || !reference.length || !reference.uLength ||
            !mark || mark->points.size() != 2 || mark->kind != record::MarkKind::Segment)
            continue;
        const double dx = mark->points[1].x - mark->points[0].x;
        const double dy = mark->points[1].y - mark->points[0].y;
        const double pixels = std::hypot(dx, dy);
        if (!(pixels > 0) || !(*reference.length > 0)) continue;
        const double u = std::hypot(*reference.uLength,
                                    *reference.length / pixels * reference.uPixels.value_or(0));
        if (u > 0) list.push_back({dx, dy, *reference.length, u});
    }
    return list;
}

/// A drawing whose known lengths say that it has shrunk more one way than the other. On a
/// photograph the same sign means that the camera stood askew, which `off-plane` asks about.
void addUnequalStretch(const Context& c, const network::FrameSolution& solved,
                       std::vector<Finding>& findings) {
    const auto& entered = *c.index.frame(solved.id.text);
    const auto* source = c.index.sourceOfFile(entered.file.text);
    const bool flat = entered.model == record::FrameModel::Stretch ||
                      (entered.model == record::FrameModel::Uniform && source &&
                       source->kind != record::SourceKind::Photograph);
    if (!flat) return;
    const auto is = frame::stretchRatio(knownVectors(c, entered, solved));
    if (!is || !(std::abs(is->ratio - 1) > c.thresholds.conflictW * is->u)) return;
    const bool across = is->ratio > 1;
    const double more = (across ? is->ratio : 1 / is->ratio) - 1;
    const char* remedy =
        entered.model == record::FrameModel::Stretch
            ? "Nothing more is needed where known lengths in three directions set its scale; else "
              "find another one."
            : "Set its scale as that of a stretched sheet, by known lengths in three directions, "
              "or show that one of these lengths is wrong.";
    findings.push_back(made(
        "unequal-stretch", {record::any(solved.id)},
        fmt::format("{} has shrunk unequally: a pixel {} it is worth {} more than one {} it, {} "
                    "times the doubt of that.",
                    source ? nameOf(*source) : "A sheet", across ? "across" : "up and down",
                    percentText(more), across ? "up and down" : "across",
                    plainNumber(std::abs(is->ratio - 1) / is->u, 2)),
        remedy, {{"ratio", is->ratio}, {"u_ratio", is->u}}));
}

void addBeyondReference(const Context& c, std::vector<Finding>& findings) {
    for (const auto& reading : c.solution.readings) {
        if (reading.use != network::ReadingUse::Used || !reading.value) continue;
        const auto& entered = *c.index.reading(reading.id.text);
        if (!entered.frame || c.units[reading.dimension].measure != quantity::Measure::Length)
            continue;
        const auto at = c.frameAt.find(entered.frame->text);
        if (at == c.frameAt.end()) continue;
        const auto& longest = c.solution.frames[at->second].longestReference;
        if (!longest || !(*longest > 0) || !(*reading.value > 3 * *longest)) continue;
        const auto& unit = c.units[reading.dimension];
        const auto& dimension = c.solution.dimensions[reading.dimension];
        const double times = *reading.value / *longest;
        findings.push_back(
            made("beyond-reference",
                 {record::any(dimension.id), record::any(reading.id), record::any(*entered.frame)},
                 fmt::format("{} was measured {} times as long as the longest known length of its "
                             "scale ({}); a small error there grows by as much.",
                             nameOf(c.record(dimension)), plainNumber(times, 2),
                             sizeText(unit.shown(*longest), std::nullopt, unit.name)),
                 "A longer known length on the same picture.",
                 {{"times", times}, {"longest_reference", unit.shown(*longest)}}));
    }
}

}  // namespace

void findScaleFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& frame : c.solution.frames) {
        if (frame.setAside) continue;
        const auto& entered = *c.index.frame(frame.id.text);
        if (frame.supported ? !frame.hasReference
                            : entered.references.empty() && entered.points.empty())
            addUnscaled(c, frame, findings);
        addUnsupported(c, frame, findings);
        addUnequalStretch(c, frame, findings);
    }
    addBeyondReference(c, findings);
}

}  // namespace evidence::judgement

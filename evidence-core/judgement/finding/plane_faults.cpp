#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evidence::judgement {

namespace {

/// Frames that know one plane or line only.
bool knowsOnePlane(record::FrameModel model) {
    using record::FrameModel;
    return model == FrameModel::Uniform || model == FrameModel::Stretch ||
           model == FrameModel::Plane || model == FrameModel::Line;
}

}  // namespace

void findPlaneFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& reading : c.solution.readings) {
        if (reading.use != network::ReadingUse::Used) continue;
        const auto& entered = *c.index.reading(reading.id.text);
        if (entered.basis != record::Basis::Scaled || !entered.frame) continue;
        const auto* frame = c.index.frame(entered.frame->text);
        const auto* picture = frame ? c.index.sourceOfFile(frame->file.text) : nullptr;
        if (!picture || picture->kind != record::SourceKind::Photograph ||
            !knowsOnePlane(frame->model))
            continue;
        const bool unknownDepth = !entered.offPlane;
        const bool unknownTilt =
            frame->model == record::FrameModel::Uniform && !frame->parallelWithin;
        if (!unknownDepth && !unknownTilt) continue;

        const auto& unit = c.units[reading.dimension];
        const auto& dimension = c.solution.dimensions[reading.dimension];
        const bool isLength = unit.measure == quantity::Measure::Length && reading.value;
        std::string text =
            fmt::format("{}, {}:", nameOf(c.record(dimension)), nameOf(c.index, entered));
        std::vector<std::pair<std::string, double>> numbers;
        if (unknownDepth) {
            const double perInch = 1 / c.thresholds.offPlaneDistance;
            numbers.emplace_back("relative_per_inch", perInch);
            text += " nothing says how much nearer or farther it lies than its scale.";
            if (isLength) {
                const double error = unit.shown(*reading.value) * perInch;
                numbers.emplace_back("error_per_inch", error);
                text += fmt::format(
                    " Each inch of that would change it by {} (camera taken to be "
                    "{} away).",
                    amountText(std::abs(error), unit.name),
                    sizeText(c.thresholds.offPlaneDistance / 12, std::nullopt, "ft"));
            }
        }
        if (unknownTilt) {
            const double perDegree = 1 - std::cos(std::numbers::pi / 180);
            numbers.emplace_back("relative_per_degree", perDegree);
            text += " Nothing says how square the camera stood to it.";
            if (isLength) {
                const double error = unit.shown(*reading.value) * perDegree;
                numbers.emplace_back("error_per_degree", error);
                text += fmt::format(
                    " One degree would change it by {}, ten degrees by a hundred "
                    "times as much.",
                    amountText(std::abs(error), unit.name));
            }
        }
        findings.push_back(made(
            "off-plane",
            {record::any(dimension.id), record::any(reading.id), record::any(*entered.frame)},
            sentence(std::move(text)),
            "Say how much nearer or farther it lies, with limits that can be seen in the picture, "
            "and within how many degrees the picture is square on. Until then B at best.",
            std::move(numbers)));
    }
}

}  // namespace evidence::judgement

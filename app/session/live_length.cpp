#include "app/session/live_length.h"

#include "app/session/draft_mark.h"
#include "app/session/shown.h"
#include "evidence-core/frame/uniform.h"
#include "evidence-core/network/mark_length.h"
#include "evidence-core/network/size_errors.h"
#include "evidence-core/record/lookup.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace app::session {

namespace {

namespace frame = evidence::frame;
namespace network = evidence::network;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

using quantity::Component;
using quantity::Shape;

bool isSetAside(const record::Register& reg, const record::Frame& frame) {
    const auto* source = record::sourceOf(reg, frame.file);
    return frame.setAside || (source && source->setAside);
}

/// All normal errors as one, the others as they are: the sum has the same distribution.
std::vector<Component> joined(const std::vector<Component>& errors) {
    double normal = 0;
    std::vector<Component> out;
    for (const auto& error : errors) {
        if (error.shape == Shape::Normal)
            normal = std::hypot(normal, error.u);
        else
            out.push_back(error);
    }
    out.push_back({normal, Shape::Normal});
    return out;
}

}  // namespace

std::vector<record::FrameId> scalesOf(const record::Register& reg, const record::FileId& file,
                                      int page) {
    std::vector<record::FrameId> scales;
    for (const auto& frame : reg.frames) {
        const bool adjusted = frame.model == record::FrameModel::Uniform ||
                              frame.model == record::FrameModel::Printed;
        if (adjusted && frame.file == file && frame.page.value_or(1) == page &&
            !isSetAside(reg, frame))
            scales.push_back(frame.id);
    }
    return scales;
}

std::optional<LiveScale> liveScale(const record::Register& reg,
                                   const evidence::judgement::Analysis& analysis,
                                   const record::FrameId& id) {
    const auto* known = record::find(reg, id);
    const auto result =
        std::ranges::find(analysis.frames, id, &evidence::judgement::FrameResult::id);
    if (!known || result == analysis.frames.end() || !result->inchesPerPixel ||
        isSetAside(reg, *known))
        return std::nullopt;
    const auto settings = reg.archive.settings.value_or(record::Settings{});
    const auto* source = record::sourceOf(reg, known->file);

    LiveScale scale;
    scale.frame = id;
    scale.inchesPerPixel = *result->inchesPerPixel;
    scale.relative = result->errors;
    if (known->parallelWithin) {
        const double angle = std::abs(*known->parallelWithin) * std::numbers::pi / 180;
        scale.relative.push_back({frame::parallelWithinRelative(angle), Shape::Normal});
    }
    scale.relative = joined(scale.relative);
    if (const auto placing = network::placingOf(*known, source, settings))
        scale.absolute.push_back({placing->u, placing->shape});
    // Of no component yet: it has no name.
    if (source && source->kind == record::SourceKind::Photograph)
        scale.absolute.push_back(
            {network::workmanshipOf(reg.archive, std::nullopt), Shape::Normal});
    scale.defaultU = settings.markU.value_or(network::kMarkUDefault);
    scale.display = displayOf(reg.archive, quantity::Typesetting::Plain);
    return scale;
}

std::optional<LiveLength> liveLength(const LiveScale& scale, const MarkDraft& draft,
                                     record::DimensionQuantity asked) {
    const record::Mark mark = asPlaced(draft);
    const auto pixels = network::measured(mark, asked);
    if (!pixels || pixels->angle || !std::isfinite(pixels->value)) return std::nullopt;
    const auto& slopes = pixels->slopes.front();
    const auto covariance = network::numbersOf(mark, scale.defaultU).covariance;
    const double variance = (slopes * covariance * slopes.transpose())(0, 0);

    LiveLength length;
    length.valueInches = scale.inchesPerPixel * pixels->value;
    std::vector<Component> errors = scale.absolute;
    for (const auto& error : scale.relative)
        errors.push_back({error.u * length.valueInches, error.shape});
    errors.push_back({scale.inchesPerPixel * std::sqrt(std::max(variance, 0.0)), Shape::Normal});
    const auto interval = quantity::coverage95(length.valueInches, errors);
    length.low95 = interval.low;
    length.high95 = interval.high;
    length.text = quantity::plusMinus(length.low95, length.valueInches, length.high95,
                                      quantity::Measure::Length, scale.display);
    return length;
}

}  // namespace app::session

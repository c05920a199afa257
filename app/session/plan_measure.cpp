#include "app/session/day_of.h"
#include "app/session/dimension_or_particular.h"
#include "app/session/draft_mark.h"
#include "app/session/given_text.h"
#include "app/session/new_dimension.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

struct Measured {
    record::Dimension dimension;
    bool isNew = false;
};

/// The dimension that is measured: the one chosen, the one of that name, or a new one.
Result<Measured> measuredDimension(const Context& context, const MeasureDraft& draft) {
    if (draft.dimension) {
        const auto chosen =
            dimensionOrParticular(context.reg, record::any(*draft.dimension), "dimension");
        if (!chosen) return tl::unexpected<Refusal>(chosen.error());
        if (!chosen->dimension)
            return refuse(Code::MissingTarget, "dimension", "only a dimension can be measured");
        return Measured{*chosen->dimension, false};
    }
    const auto name = required(draft.name, "name", "say what was measured: a name, or a dimension");
    if (!name) return tl::unexpected<Refusal>(name.error());
    const auto component = draft.component ? given(*draft.component) : std::nullopt;
    const auto known = dimensionNamed(context.reg, *name, component);
    if (!known) return tl::unexpected<Refusal>(known.error());
    if (*known && (*known)->quantity != draft.quantity)
        return refuse(
            Code::DuplicateId, "name",
            fmt::format("{} has this name and is a {}, not a {}; give another name",
                        (*known)->code.value_or((*known)->id.text),
                        record::nameOf((*known)->quantity), record::nameOf(draft.quantity)));
    if (*known) return Measured{**known, false};
    DimensionDraft wanted;
    wanted.name = *name;
    wanted.component = component;
    wanted.quantity = draft.quantity;
    auto made = newDimension(context, wanted);
    if (!made) return tl::unexpected<Refusal>(made.error());
    return Measured{*std::move(made), true};
}

std::string fieldOf(const record::AnyRecord& made, std::string_view pointer) {
    if (std::holds_alternative<record::Mark>(made)) return "mark" + std::string(pointer);
    // A mark that does not fit the scale: it lies on another page.
    return pointer == "/mark" ? "frame" : sameField(made, pointer);
}

}  // namespace

Result<record::ChangeSet> planMeasure(const Context& context, const MeasureDraft& draft) {
    const auto mark = markOf(context, draft.mark);
    if (!mark) return tl::unexpected<Refusal>(mark.error());
    const auto* frame = record::find(context.reg, draft.frame);
    if (!frame)
        return refuse(Code::MissingTarget, "frame",
                      "this page has no such scale; set a scale first");
    if (frame->setAside)
        return refuse(Code::WrongUse, "frame", "this scale is set aside; choose another");
    const auto measured = measuredDimension(context, draft);
    if (!measured) return tl::unexpected<Refusal>(measured.error());

    record::Reading reading;
    reading.id = {record::newUuid7()};
    reading.of = record::any(measured->dimension.id);
    reading.basis = record::Basis::Scaled;
    reading.mark = mark->id;
    reading.frame = draft.frame;
    reading.offPlane = draft.offPlane;
    reading.by = context.by;
    reading.on = dayOf(context.at);

    record::ChangeSet set{"measure " + measured->dimension.code.value_or(measured->dimension.name),
                          {}};
    set.changes.push_back({std::nullopt, *mark});
    if (measured->isNew) set.changes.push_back({std::nullopt, measured->dimension});
    set.changes.push_back({std::nullopt, std::move(reading)});
    auto plan = checked(context, std::move(set), fieldOf);
    if (!plan) return plan;
    if (auto refusal = lacksSize(*mark, measured->dimension.quantity))
        return tl::unexpected<Refusal>(*refusal);
    return plan;
}

}  // namespace app::session

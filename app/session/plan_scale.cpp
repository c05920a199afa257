#include "app/session/draft_mark.h"
#include "app/session/given_text.h"
#include "app/session/known_page.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

/// The quantity that the mark must show: that of the dimension, where the length is one.
Result<record::DimensionQuantity> askedOf(const record::Register& reg,
                                          const record::KnownLength& length) {
    if (!length.value && !length.dimension)
        return refuse(Code::MissingKey, "length/value",
                      "say how long the known thing is, or which dimension it is");
    if (!length.dimension) return record::DimensionQuantity::Length;
    const auto* dimension = record::find(reg, *length.dimension);
    if (!dimension)
        return refuse(Code::MissingTarget, "length/dimension",
                      fmt::format("there is no dimension \"{}\"", length.dimension->text));
    const std::string called = dimension->code.value_or(dimension->name);
    if (record::measureOf(dimension->quantity) != evidence::quantity::Measure::Length)
        return refuse(Code::BadUnit, "length/dimension",
                      called + " is no length and cannot give a scale");
    if (dimension->setAside)
        return refuse(Code::WrongUse, "length/dimension",
                      called + " is set aside; choose another, or give a length");
    return dimension->quantity;
}

/// The scale to add to: the one named, or a new one of the mark's page. Also the one before.
Result<record::Change> frameToAddTo(const Context& context, const ScaleDraft& draft) {
    record::Frame frame;
    if (!draft.frame) {
        frame.id = {record::newUuid7()};
        frame.file = draft.mark.file;
        frame.page = draft.mark.page;
        frame.model = record::FrameModel::Uniform;
        return record::Change{std::nullopt, frame};
    }
    const auto* known = record::find(context.reg, *draft.frame);
    if (!known)
        return refuse(Code::MissingTarget, "frame",
                      fmt::format("there is no scale \"{}\"", draft.frame->text));
    if (known->setAside)
        return refuse(Code::WrongUse, "frame", "this scale is set aside; set a new one");
    return record::Change{*known, *known};
}

std::string fieldOf(const record::AnyRecord& made, std::string_view pointer) {
    if (std::holds_alternative<record::Mark>(made)) return "mark" + std::string(pointer);
    constexpr std::string_view kReferences = "/references/";
    if (!pointer.starts_with(kReferences)) return sameField(made, pointer);
    pointer.remove_prefix(kReferences.size());
    pointer.remove_prefix(std::min(pointer.find('/') + 1, pointer.size()));
    // A mark that does not fit the scale: it lies on another page.
    if (pointer == "mark") return "frame";
    // A length as a whole lacks its spread alone: its value was looked at before.
    return pointer == "length" ? "length/u" : std::string(pointer);
}

}  // namespace

Result<record::ChangeSet> planScale(const Context& context, const ScaleDraft& draft) {
    const auto mark = markOf(context, draft.mark);
    if (!mark) return tl::unexpected<Refusal>(mark.error());
    record::KnownLength length = draft.length;
    dropBlanks(length);
    const auto asked = askedOf(context.reg, length);
    if (!asked) return tl::unexpected<Refusal>(asked.error());
    auto change = frameToAddTo(context, draft);
    if (!change) return tl::unexpected<Refusal>(change.error());
    auto& frame = std::get<record::Frame>(*change->after);
    frame.references.push_back({mark->id, std::move(length), std::nullopt, std::nullopt});
    if (draft.parallelWithin) frame.parallelWithin = draft.parallelWithin;

    const auto page = knownPage(context.reg, draft.mark.file, draft.mark.page, "mark/");
    auto plan = checked(context,
                        {(draft.frame ? "add to the scale of " : "set scale on ") + *page,
                         {{std::nullopt, *mark}, *change}},
                        fieldOf);
    if (!plan) return plan;
    if (auto refusal = lacksSize(*mark, *asked)) return tl::unexpected<Refusal>(*refusal);
    return plan;
}

}  // namespace app::session

#include "app/session/dimension_or_particular.h"
#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "app/session/typed_value.h"
#include "evidence-core/judgement/finding/current_ruling.h"
#include "evidence-core/record/measure.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

/// The unit to keep beside the value; of a particular, whose value is a text, none.
Result<std::optional<std::string>> unitOfValue(const RulingDraft& draft,
                                               const DimensionOrParticular& about) {
    if (!about.dimension) {
        const auto words = required(draft.value, "value", "say what is to be built");
        if (!words) return tl::unexpected<Refusal>(words.error());
        return std::nullopt;
    }
    const auto value = typedValue(draft.value, record::measureOf(about.dimension->quantity),
                                  record::unitOf(*about.dimension), "value");
    if (!value) return tl::unexpected<Refusal>(value.error());
    return unitBeside(*value);
}

Result<std::vector<record::Alternative>> alternativesOf(const RulingDraft& draft) {
    auto alternatives = draft.alternatives;
    for (std::size_t i = 0; i < alternatives.size(); ++i) {
        const auto* text = std::get_if<std::string>(&alternatives[i].value);
        if (text && isBlank(*text))
            return refuse(Code::MissingKey, fmt::format("alternatives/{}/value", i),
                          "an alternative needs its value; take the line out where there is none");
        dropBlanks(alternatives[i]);
    }
    return alternatives;
}

}  // namespace

Result<record::ChangeSet> planRuling(const Context& context, const RulingDraft& draft) {
    const auto about = dimensionOrParticular(context.reg, draft.on, "on");
    if (!about) return tl::unexpected<Refusal>(about.error());
    const auto unit = unitOfValue(draft, *about);
    if (!unit) return tl::unexpected<Refusal>(unit.error());
    const auto reason = required(draft.reason, "reason", "say why this value is built");
    if (!reason) return tl::unexpected<Refusal>(reason.error());
    const auto alternatives = alternativesOf(draft);
    if (!alternatives) return tl::unexpected<Refusal>(alternatives.error());

    record::Ruling ruling;
    ruling.id = {record::newUuid7()};
    ruling.on = draft.on;
    ruling.value = draft.value;
    ruling.unit = *unit;
    ruling.reason = *reason;
    ruling.by = context.by;
    ruling.at = context.at;
    ruling.alternatives = *alternatives;
    ruling.tolerance = draft.tolerance;
    ruling.evidence = draft.evidence;
    const evidence::judgement::Index index(context.reg);
    if (const auto* former = evidence::judgement::currentRuling(index, draft.on))
        ruling.supersedes = former->id;
    return checked(context, {"rule " + about->called(), {{std::nullopt, std::move(ruling)}}});
}

}  // namespace app::session

#include "app/session/day_of.h"
#include "app/session/dimension_or_particular.h"
#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "app/session/typed_value.h"
#include "evidence-core/record/measure.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

struct Bounds {
    quantity::Written low;
    quantity::Written high;
};

Result<Bounds> boundsOf(const GuessDraft& draft, const record::Dimension& dimension) {
    const auto measure = record::measureOf(dimension.quantity);
    const auto unit = record::unitOf(dimension);
    auto low = typedValue(draft.low, measure, unit, "low");
    if (!low) return tl::unexpected<Refusal>(low.error());
    auto high = typedValue(draft.high, measure, unit, "high");
    if (!high) return tl::unexpected<Refusal>(high.error());
    if (!(low->canonical < high->canonical))
        return refuse(Code::BadValue, "high",
                      "a guess lies between two bounds: the upper one must be above the lower one");
    return Bounds{*std::move(low), *std::move(high)};
}

/// As typed, with the unit that a bare number was taken in.
std::string boundText(const quantity::Written& bound) {
    const auto unit = unitBeside(bound);
    const auto text = trimmed(bound.text);
    return unit && bound.unit != quantity::Unit::One ? text + " " + *unit : text;
}

/// What was said beside the reason, one thing a line.
std::string alsoSaid(const GuessDraft& draft) {
    std::string text;
    if (const auto considered = given(draft.considered)) text += "\nConsidered: " + *considered;
    if (const auto settles = given(draft.wouldSettle)) text += "\nWould settle it: " + *settles;
    return text;
}

std::string fieldOf(const record::AnyRecord& made, std::string_view pointer) {
    // The value is the middle of what was typed.
    return pointer == "/value" || pointer == "/half_width" || pointer.empty()
               ? "low"
               : sameField(made, pointer);
}

/// A guess with its reason; the value is still to come.
Result<record::Reading> guessOf(const Context& context, const GuessDraft& draft) {
    const auto reason = required(draft.reason, "reason", "say why it was guessed so");
    if (!reason) return tl::unexpected<Refusal>(reason.error());
    record::Reading reading;
    reading.id = {record::newUuid7()};
    reading.of = draft.of;
    reading.basis = record::Basis::Guessed;
    reading.reason = *reason + alsoSaid(draft);
    reading.by = context.by;
    reading.on = dayOf(context.at);
    return reading;
}

Result<record::Reading> sizeGuessed(const Context& context, const GuessDraft& draft,
                                    const record::Dimension& dimension) {
    const auto bounds = boundsOf(draft, dimension);
    if (!bounds) return tl::unexpected<Refusal>(bounds.error());
    GuessDraft between = draft;
    if (!isBlank(draft.reason))
        between.reason = fmt::format("{}\nBetween {} and {}.", trimmed(draft.reason),
                                     boundText(bounds->low), boundText(bounds->high));
    auto reading = guessOf(context, between);
    if (!reading) return reading;
    const auto unit = record::unitOf(dimension);
    const double low = quantity::fromCanonical(bounds->low.canonical, unit);
    const double high = quantity::fromCanonical(bounds->high.canonical, unit);
    reading->value = record::Number{low + (high - low) / 2, ""};
    reading->halfWidth = (high - low) / 2;
    reading->unit = std::string(nameOf(unit));
    if (draft.floorReason) reading->floorReason = given(*draft.floorReason);
    return reading;
}

Result<record::Reading> factGuessed(const Context& context, const GuessDraft& draft) {
    const auto value = required(draft.value, "value", "say what it is taken to be");
    if (!value) return tl::unexpected<Refusal>(value.error());
    auto reading = guessOf(context, draft);
    if (reading) reading->value = *value;
    return reading;
}

}  // namespace

Result<record::ChangeSet> planGuess(const Context& context, const GuessDraft& draft) {
    const auto about = dimensionOrParticular(context.reg, draft.of, "of");
    if (!about) return tl::unexpected<Refusal>(about.error());
    auto reading = about->dimension ? sizeGuessed(context, draft, *about->dimension)
                                    : factGuessed(context, draft);
    if (!reading) return tl::unexpected<Refusal>(reading.error());
    return checked(context, {"guess " + about->called(), {{std::nullopt, *std::move(reading)}}},
                   about->dimension ? FieldOf(fieldOf) : FieldOf(sameField));
}

}  // namespace app::session

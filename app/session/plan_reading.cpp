#include "app/session/day_of.h"
#include "app/session/dimension_or_particular.h"
#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;

namespace {

/// The field to fill where the reading as a whole lacks something.
std::string lackingField(const record::Reading& reading) {
    const bool hasMark = reading.mark || reading.between;
    if (reading.basis == record::Basis::Limit) return "low";
    if (reading.basis == record::Basis::Scaled && hasMark && !reading.frame) return "frame";
    if (reading.basis == record::Basis::Scaled && !hasMark && reading.frame) return "mark";
    return reading.value ? "half_width" : "value";
}

std::string fieldOf(const record::AnyRecord& made, std::string_view pointer) {
    const auto& reading = std::get<record::Reading>(made);
    return pointer.empty() ? lackingField(reading) : sameField(made, pointer);
}

}  // namespace

evidence::Result<record::ChangeSet> planReading(const Context& context, record::Reading reading) {
    const auto about = dimensionOrParticular(context.reg, reading.of, "of");
    if (!about) return tl::unexpected<Refusal>(about.error());
    if (reading.basis == record::Basis::Guessed)
        return refuse(Code::WrongUse, "basis",
                      "a guess goes on record with its bounds and its reason: use \"guess\"");
    dropBlanks(reading);
    reading.id = {record::newUuid7()};
    if (!reading.by) reading.by = context.by;
    if (!reading.on) reading.on = dayOf(context.at);
    const auto what =
        fmt::format("{} reading of {}", record::nameOf(reading.basis), about->called());
    return checked(context, {what, {{std::nullopt, std::move(reading)}}}, fieldOf);
}

}  // namespace app::session

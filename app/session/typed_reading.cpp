#include "app/session/typed_reading.h"

#include "app/session/given_text.h"
#include "app/session/typed_amount.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

using evidence::Code;
using record::Basis;

namespace {

std::optional<record::Written> writtenIn(const std::string& text) {
    return isBlank(text) ? std::nullopt : std::optional<record::Written>(text);
}

/// The unit that an uncertainty of the value is in (exchange contract): the one written in it, else
/// the dimension's.
quantity::Unit unitOfSpread(const std::string& value, const record::Dimension& dimension) {
    const auto unit = record::unitOf(dimension);
    const auto read = quantity::parseQuantity(value, record::measureOf(dimension.quantity), unit);
    return read && read->unitWritten ? read->unit : unit;
}

std::optional<double>* memberFor(SpreadGiven given, record::Reading& reading) {
    switch (given) {
        case SpreadGiven::Standard:
            return &reading.u;
        case SpreadGiven::HalfWidth:
            return &reading.halfWidth;
        case SpreadGiven::RoundedTo:
            return &reading.roundedTo;
        case SpreadGiven::DefaultOfBasis:
            break;
    }
    return nullptr;
}

}  // namespace

evidence::Result<record::Reading> readingOf(const TypedReading& typed,
                                            const record::Register& reg) {
    const auto fields = fieldsOf(typed, reg);
    record::Reading reading;
    reading.of = typed.of;
    reading.basis = typed.basis;
    reading.source = typed.source;
    if (fields.value) reading.value = writtenIn(typed.value);
    if (fields.limits) {
        reading.low = writtenIn(typed.low);
        reading.high = writtenIn(typed.high);
    }
    if (fields.feature) reading.feature = typed.feature;
    if (fields.instrument) reading.instrument = given(typed.instrument);
    reading.excerpt = given(typed.excerpt);
    reading.reason = given(typed.reason);

    const auto* dimension = record::find(reg, record::DimensionId{typed.of.text});
    auto* member = memberFor(typed.spreadGiven, reading);
    if (!fields.spread || !dimension || !member) return reading;
    const auto amount = typedAmount(typed.spread, unitOfSpread(typed.value, *dimension), "spread");
    if (!amount) return tl::unexpected(amount.error());
    if (!*amount)
        return evidence::refuse(Code::MissingKey, "spread",
                                "Write the uncertainty, or take the default of the basis.");
    *member = **amount;
    return reading;
}

ReadingFields fieldsOf(const TypedReading& typed, const record::Register& reg) {
    ReadingFields fields;
    const bool ofNumber = record::find(reg, record::DimensionId{typed.of.text}) != nullptr;
    const bool gauged = typed.basis == Basis::Gauged;
    fields.feature = gauged;
    fields.instrument = gauged && ofNumber;
    // An altered part gives limits only.
    fields.limits = ofNumber && (typed.basis == Basis::Limit ||
                                 (gauged && typed.feature == record::Feature::Altered));
    fields.value = !fields.limits;
    fields.spread = ofNumber && fields.value;
    return fields;
}

const std::vector<Basis>& basesWrittenDown() {
    static const std::vector<Basis> kBases{Basis::Figured,  Basis::Stated,    Basis::Gauged,
                                           Basis::Told,     Basis::Analogous, Basis::Interpolated,
                                           Basis::Inferred, Basis::Limit};
    return kBases;
}

}  // namespace app::session

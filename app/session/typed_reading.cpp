#include "app/session/typed_reading.h"

#include "app/session/from_table.h"
#include "app/session/given_text.h"
#include "app/session/table_offer.h"
#include "app/session/typed_amount.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;
namespace trade = evidence::trade;

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

/// The row that the value's words mean; null where they are no trade words.
evidence::Result<const trade::Row*> rowMeant(const TypedReading& typed, const trade::Tables& tables,
                                             const record::Register& reg) {
    if (!isBlank(typed.tableRow)) {
        const auto* row = tables.find(trimmed(typed.tableRow));
        if (row && row->kind == record::TableRowKind::Length) return row;
        return evidence::refuse(Code::MissingTarget, "table_row",
                                "Choose a size of the tables, or write the size itself.");
    }
    if (const auto* row = rowPicked(tables, typed.value)) return row;
    const auto asked = sizeAsked(tables, reg, typed.value, typed.source);
    if (asked.row) return tables.find(*asked.row);
    if (asked.offers.empty()) return nullptr;
    return evidence::refuse(Code::MissingKey, "table_row", asked.question);
}

/// A size in trade words: the row's value and spread; the words stay as they were written.
void takeFrom(const trade::Row& row, const TypedReading& typed, record::Reading& reading) {
    reading.value = record::Number{row.value, row.valueText};
    reading.unit = std::string(trade::nameOf(row.unit));
    reading.tableRow = row.id;
    if (typed.spreadGiven == SpreadGiven::DefaultOfBasis) reading.u = row.u;
    if (!reading.excerpt) reading.excerpt = given(typed.value);
    const auto reason = tableReason(row, trimmed(typed.value));
    reading.reason = reading.reason ? *reading.reason + " " + reason : reason;
}

evidence::Result<record::Correction> correctionOf(const TypedReading& typed,
                                                  const trade::Tables& tables,
                                                  quantity::Unit unit) {
    const auto* row = rowPicked(tables, typed.correction);
    if (!row)
        return evidence::refuse(Code::MissingTarget, "correction",
                                "Choose a row of the tables, or leave this empty.");
    const auto given = circumstancesTyped(row->kind, typed.circumstances);
    if (!given) return tl::unexpected(given.error());
    auto correction = correctionFromTable(*row, *given, unit);
    if (!correction)
        return evidence::refuse(
            correction.error().code,
            correction.error().place == "table_row" ? "correction" : "circumstances",
            correction.error().help);
    return correction;
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
    if (!dimension) return reading;
    auto unit = unitOfSpread(typed.value, *dimension);
    if (fields.correction) {
        const trade::Tables tables(reg);
        const auto read = quantity::parseQuantity(typed.value, quantity::Measure::Length, unit);
        if (!read && !isBlank(typed.value)) {
            const auto row = rowMeant(typed, tables, reg);
            if (!row) return tl::unexpected(row.error());
            if (*row) {
                takeFrom(**row, typed, reading);
                unit = *quantity::unitNamed(trade::nameOf((*row)->unit));
            }
        }
        if (!isBlank(typed.correction)) {
            auto correction = correctionOf(typed, tables, unit);
            if (!correction) return tl::unexpected(correction.error());
            reading.corrections.push_back(*std::move(correction));
        }
    }
    auto* member = memberFor(typed.spreadGiven, reading);
    if (!fields.spread || !member) return reading;
    const auto amount = typedAmount(typed.spread, unit, "spread");
    if (!amount) return tl::unexpected(amount.error());
    if (!*amount)
        return evidence::refuse(Code::MissingKey, "spread",
                                "Write the uncertainty, or take the default of the basis.");
    *member = **amount;
    return reading;
}

ReadingFields fieldsOf(const TypedReading& typed, const record::Register& reg) {
    ReadingFields fields;
    const auto* dimension = record::find(reg, record::DimensionId{typed.of.text});
    const bool ofNumber = dimension != nullptr;
    const bool gauged = typed.basis == Basis::Gauged;
    fields.feature = gauged;
    fields.instrument = gauged && ofNumber;
    // An altered part gives limits only.
    fields.limits = ofNumber && (typed.basis == Basis::Limit ||
                                 (gauged && typed.feature == record::Feature::Altered));
    fields.value = !fields.limits;
    fields.spread = ofNumber && fields.value;
    fields.correction =
        fields.spread && record::measureOf(dimension->quantity) == quantity::Measure::Length;
    return fields;
}

const std::vector<Basis>& basesWrittenDown() {
    static const std::vector<Basis> kBases{Basis::Figured,  Basis::Stated,    Basis::Gauged,
                                           Basis::Told,     Basis::Analogous, Basis::Interpolated,
                                           Basis::Inferred, Basis::Limit};
    return kBases;
}

}  // namespace app::session

#include "app/desk/page/known_thing.h"

#include "app/desk/page/dimension_words.h"
#include "app/session/from_table.h"
#include "app/session/shown.h"
#include "app/session/table_offer.h"
#include "app/session/typed_amount.h"
#include "app/session/typed_value.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

#include <optional>

namespace app::desk::page {

namespace quantity = evidence::quantity;
namespace record = evidence::record;
namespace trade = evidence::trade;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

std::optional<record::Basis> basisOf(const record::Register& reg, const record::SourceId& id) {
    if (id.empty()) return record::Basis::Assumed;
    const auto* source = record::find(reg, id);
    if (!source) return std::nullopt;
    switch (source->kind) {
        case record::SourceKind::Drawing:
            return record::Basis::Figured;
        case record::SourceKind::Part:
            return record::Basis::Gauged;
        case record::SourceKind::Testimony:
            return record::Basis::Told;
        case record::SourceKind::Photograph:
        case record::SourceKind::Text:
        case record::SourceKind::Rebuild:
        case record::SourceKind::Standard:
            return record::Basis::Stated;
    }
    return std::nullopt;
}

/// The row that is meant; null where what was typed is nothing of the tables.
Result<const trade::Row*> rowMeant(const trade::Tables& tables, const record::Register& reg,
                                   const KnownThing& thing) {
    const std::string what = thing.what.trimmed().toStdString();
    if (!thing.row.empty()) return tables.find(thing.row);
    if (const auto* row = session::rowPicked(tables, what)) return row;
    const auto asked = session::sizeAsked(tables, reg, what, std::nullopt);
    if (asked.row) return tables.find(*asked.row);
    if (asked.offers.empty()) return nullptr;
    return evidence::refuse(Code::MissingKey, "length/table_row", asked.question);
}

/// The ± that was typed, in `unit`.
Result<void> takeSpread(const KnownThing& thing, quantity::Unit unit, record::KnownLength& length) {
    const auto half =
        session::typedAmount(thing.plusMinus.toStdString(), unit, "length/half_width");
    if (!half) return tl::unexpected<Refusal>(half.error());
    if (!half->has_value()) return {};
    if (**half == 0)
        return evidence::refuse(Code::BadValue, "length/half_width",
                                "the ± of a known length is more than 0");
    length.u.reset();
    length.halfWidth = **half;
    length.shape = record::Shape::Normal95;  // ± is half the 95 % interval
    return {};
}

Result<record::KnownLength> lengthOfRow(const record::Register& reg, const trade::Row& row,
                                        const KnownThing& thing) {
    const std::string what = thing.what.trimmed().toStdString();
    const bool picked = what == row.id || what == session::pickedWords(row);
    auto length = session::lengthFromTable(row, picked ? std::string() : what);
    if (!length) return length;
    const auto unit = quantity::unitNamed(*length->unit);
    if (const auto taken = takeSpread(thing, *unit, *length); !taken)
        return tl::unexpected<Refusal>(taken.error());
    if (!thing.source.empty()) {
        length->source = thing.source;
        length->basis = basisOf(reg, thing.source);
    }
    return length;
}

}  // namespace

Result<record::KnownLength> knownLengthOf(const record::Register& reg, const KnownThing& thing) {
    const QString what = thing.what.trimmed();
    if (what.isEmpty())
        return evidence::refuse(Code::MissingKey, "length/value",
                                "say how long this is, or which dimension it is");
    record::KnownLength length;
    if (const auto* dimension = dimensionMeant(reg, what)) {
        if (record::measureOf(dimension->quantity) != quantity::Measure::Length)
            return evidence::refuse(Code::BadUnit, "length/value",
                                    dimension->name + " is no length and gives no scale");
        length.dimension = dimension->id;
        return length;
    }
    const auto value =
        session::typedValue(what.toStdString(), quantity::Measure::Length,
                            session::displayOf(reg.archive).lengthUnit, "length/value");
    if (!value) {
        const trade::Tables tables(reg);
        const auto row = rowMeant(tables, reg, thing);
        if (!row) return tl::unexpected<Refusal>(row.error());
        if (*row) return lengthOfRow(reg, **row, thing);
        return tl::unexpected<Refusal>(value.error());
    }
    length.value = what.toStdString();
    length.unit = std::string(quantity::nameOf(value->unit));
    if (const auto taken = takeSpread(thing, value->unit, length); !taken)
        return tl::unexpected<Refusal>(taken.error());
    length.basis = basisOf(reg, thing.source);
    if (!thing.source.empty()) length.source = thing.source;
    return length;
}

}  // namespace app::desk::page

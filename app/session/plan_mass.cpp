#include "app/session/from_table.h"
#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "app/session/same_stock.h"
#include "evidence-core/network/formula.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/formula_names.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"
#include "evidence-core/record/uuid7.h"
#include "evidence-core/trade/tables.h"

#include <fmt/format.h>

#include <algorithm>

namespace app::session {

namespace network = evidence::network;
namespace quantity = evidence::quantity;
namespace record = evidence::record;
namespace trade = evidence::trade;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

namespace {

Result<const record::Dimension*> massMeant(const record::Register& reg, const record::AnyId& of) {
    const auto* dimension = record::find(reg, record::DimensionId{of.text});
    if (!dimension)
        return refuse(Code::MissingTarget, "of",
                      fmt::format("there is no dimension \"{}\"", of.text));
    if (dimension->quantity != record::DimensionQuantity::Mass)
        return refuse(Code::BadUnit, "of",
                      fmt::format("{} is no mass", dimension->code.value_or(dimension->name)));
    if (dimension->setAside)
        return refuse(Code::WrongUse, "of", dimension->name + " is set aside; choose another");
    return dimension;
}

std::optional<std::string> idOfCode(const record::Register& reg, std::string_view code) {
    const auto found = std::ranges::find(reg.dimensions, std::optional(std::string(code)),
                                         &record::Dimension::code);
    return found == reg.dimensions.end() ? std::nullopt : std::optional(found->id.text);
}

/// The formula as the register prints it: current codes, in brackets where they are no plain words.
std::string withCodes(const record::Register& reg, const std::string& formula) {
    const auto byId =
        record::formulaById(formula, [&](std::string_view code) { return idOfCode(reg, code); });
    return record::formulaByCode(byId, [&](std::string_view id) {
        const auto* dimension = record::find(reg, record::DimensionId{std::string(id)});
        return dimension ? dimension->code : std::nullopt;
    });
}

/// What was typed measures a volume, of other things than the mass itself.
std::optional<Refusal> noVolume(const record::Register& reg, const std::string& volume,
                                const record::Dimension& mass) {
    // A sum with 1 in3 has a volume beside it: what does not fit is what was typed.
    const auto formula = network::parseFormula(
        "1 in3 = " + volume, [&](std::string_view code) { return idOfCode(reg, code); });
    const Refusal misfit{Code::BadUnit, "volume",
                         fmt::format("\"{}\" is no volume: name one (D4), multiply three lengths "
                                     "(D1*D2*D3) or write it with its unit (120 in3)",
                                     volume)};
    // A plain figure names no dimension, and needs none.
    const auto figure =
        quantity::parseQuantity(volume, quantity::Measure::Volume, quantity::Unit::CubicInch);
    if (!formula && formula.error().code == Code::BadFormula && figure)
        return figure->unitWritten ? std::nullopt : std::optional(misfit);
    if (!formula)
        return Refusal{formula.error().code, "volume",
                       fmt::format("\"{}\" cannot be read: {}", volume, formula.error().help)};
    std::vector<quantity::Measure> measures;
    for (const auto& id : formula->names) {
        if (id == mass.id.text)
            return Refusal{Code::WrongUse, "volume", "a mass is not worked out from itself"};
        measures.push_back(record::measureOf(record::find(reg, record::DimensionId{id})->quantity));
    }
    if (formula->relationSign == network::RelationSign::Equal &&
        network::checkUnits(*formula, measures))
        return std::nullopt;
    return misfit;
}

/// "42 lb / 1 ft3": the density as its source gives it.
std::string densityTerm(const trade::Row& row) {
    switch (row.unit) {
        case trade::RowUnit::PoundPerCubicInch:
            return row.valueText + " lb / 1 in3";
        case trade::RowUnit::PoundPerCubicFoot:
            return row.valueText + " lb / 1 ft3";
        case trade::RowUnit::GramPerCubicCentimetre:
            return row.valueText + " g / 1 cm3";
        case trade::RowUnit::KilogramPerCubicMetre:
            return row.valueText + " kg / 1 m3";
        case trade::RowUnit::Inch:
        case trade::RowUnit::Millimetre:
        case trade::RowUnit::PerPercent:
        case trade::RowUnit::One:
        case trade::RowUnit::Percent:
        case trade::RowUnit::InchPerFoot:
        case trade::RowUnit::InchPerYear:
        case trade::RowUnit::MicrometrePerYear:
        case trade::RowUnit::PerDegreeF:
        case trade::RowUnit::PerDegreeC:
            break;
    }
    return {};
}

/// The doubt of the density: a new one, or the one that a part from the same stock has already.
Result<record::Change> doubtOf(const Context& context, const MassDraft& draft,
                               const trade::Row& row, const record::RelationId& relation,
                               record::Basis basis) {
    const record::SharedErrorUse use{record::any(relation), std::nullopt};
    if (!draft.sameStock) {
        record::SharedError error;
        error.id = {record::newUuid7()};
        error.label = stockLabel(row);
        error.kind = record::SharedErrorKind::Relative;
        error.u = row.u / row.value;
        error.basis = basis;
        error.source = row.ownSource;
        error.on = {use};
        return record::Change{std::nullopt, error};
    }
    const auto isOn = [&](const record::SharedError& error) {
        return !error.setAside && error.label == stockLabel(row) &&
               std::ranges::any_of(error.on, [&](const record::SharedErrorUse& on) {
                   return on.record.text == draft.sameStock->text;
               });
    };
    const auto held = std::ranges::find_if(context.reg.sharedErrors, isOn);
    if (held == context.reg.sharedErrors.end())
        return refuse(
            Code::WrongUse, "same_stock",
            fmt::format("that part's mass is not worked out with the {}", stockLabel(row)));
    auto more = *held;
    more.on.push_back(use);
    return record::Change{*held, more};
}

std::string fieldOf(const record::AnyRecord&, std::string_view pointer) {
    return pointer.starts_with("/formula") ? "volume" : std::string(pointer.substr(1));
}

}  // namespace

Result<record::ChangeSet> planMass(const Context& context, const MassDraft& draft) {
    const auto mass = massMeant(context.reg, draft.of);
    if (!mass) return tl::unexpected<Refusal>(mass.error());
    const auto volume = required(draft.volume, "volume",
                                 "say which volume it is: a dimension, a product, a figure");
    if (!volume) return tl::unexpected<Refusal>(volume.error());
    if (auto refusal = noVolume(context.reg, *volume, **mass))
        return tl::unexpected<Refusal>(*std::move(refusal));
    const trade::Tables tables(context.reg);
    const auto* row = tables.find(draft.tableRow);
    if (!row || row->kind != record::TableRowKind::Density)
        return refuse(row ? Code::WrongUse : Code::MissingTarget, "table_row",
                      "choose what it is made of from the table of densities, or add a row to it");

    record::Relation relation;
    relation.id = {record::newUuid7()};
    relation.formula = withCodes(
        context.reg, fmt::format("[{}] = ({}) * {}", (*mass)->code.value_or((*mass)->id.text),
                                 *volume, densityTerm(*row)));
    relation.u = 0;
    relation.basis = row->ownSource ? record::Basis::Stated : record::Basis::TradeRule;
    relation.source = row->ownSource;
    relation.reason = fmt::format("Mass by volume and density, {} {} with u {}. {}", row->valueText,
                                  trade::nameOf(row->unit), row->u, tableReason(*row, ""));
    if (const auto said = given(draft.reason)) *relation.reason += " " + *said;
    const auto doubt = doubtOf(context, draft, *row, relation.id, *relation.basis);
    if (!doubt) return tl::unexpected<Refusal>(doubt.error());
    return checked(
        context,
        {fmt::format("mass of {} from its volume", (*mass)->code.value_or((*mass)->name)),
         {{std::nullopt, relation}, *doubt}},
        fieldOf);
}

}  // namespace app::session

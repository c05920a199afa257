#include "evidence-core/trade/row_unit.h"

#include "evidence-core/quantity/inch.h"
#include "evidence-core/trade/density.h"

#include <fmt/format.h>

#include <array>

namespace evidence::trade {

namespace {

using quantity::Ratio;
using record::TableRowKind;

constexpr Ratio kMillimetre = quantity::kMillimetresPerInch.inverse();

/// What the units of a group measure.
enum class Group { Length, Density, Movement, Pure, Loss, Growth };

struct UnitLine {
    RowUnit unit;
    Group group;
    std::string_view name;
    Ratio factor;
};

constexpr std::array kUnits{
    UnitLine{RowUnit::Inch, Group::Length, "in", {1, 1}},
    UnitLine{RowUnit::Millimetre, Group::Length, "mm", kMillimetre},
    UnitLine{RowUnit::PoundPerCubicFoot, Group::Density, "lb/ft3", kPoundPerCubicFoot},
    UnitLine{RowUnit::PoundPerCubicInch, Group::Density, "lb/in3", {1, 1}},
    UnitLine{RowUnit::GramPerCubicCentimetre, Group::Density, "g/cm3", kGramPerCubicCentimetre},
    UnitLine{RowUnit::KilogramPerCubicMetre, Group::Density, "kg/m3",
             reduced(kGramPerCubicCentimetre* Ratio{1, 1000})},
    UnitLine{RowUnit::PerPercent, Group::Movement, "1/%", {1, 1}},
    UnitLine{RowUnit::Percent, Group::Pure, "%", {1, 100}},
    UnitLine{RowUnit::One, Group::Pure, "1", {1, 1}},
    UnitLine{RowUnit::InchPerFoot, Group::Pure, "in/ft", {1, 12}},
    UnitLine{RowUnit::MicrometrePerYear, Group::Loss, "um/yr",
             reduced(kMillimetre* Ratio{1, 1000})},
    UnitLine{RowUnit::InchPerYear, Group::Loss, "in/yr", {1, 1}},
    UnitLine{RowUnit::PerDegreeF, Group::Growth, "ppm/degF", {1, 1000000}},
    UnitLine{RowUnit::PerDegreeC, Group::Growth, "ppm/degC", {5, 9000000}},
};

constexpr bool inOrder() {
    for (std::size_t i = 0; i < kUnits.size(); ++i)
        if (static_cast<std::size_t>(kUnits[i].unit) != i) return false;
    return true;
}
static_assert(inOrder(), "the units stand in the order of the enumeration");

Group groupOf(TableRowKind kind) {
    switch (kind) {
        case TableRowKind::Length:
        case TableRowKind::Coating:
            return Group::Length;
        case TableRowKind::Density:
            return Group::Density;
        case TableRowKind::WoodMovement:
            return Group::Movement;
        case TableRowKind::WoodShrinkage:
        case TableRowKind::CastingContraction:
        case TableRowKind::SheetChange:
            return Group::Pure;
        case TableRowKind::SurfaceLoss:
            return Group::Loss;
        case TableRowKind::Expansion:
            break;
    }
    return Group::Growth;
}

}  // namespace

std::string_view nameOf(RowUnit unit) {
    return kUnits.at(static_cast<std::size_t>(unit)).name;
}

double factorToCanonical(RowUnit unit) {
    return kUnits.at(static_cast<std::size_t>(unit)).factor.value();
}

std::vector<std::string_view> unitNamesFor(TableRowKind kind) {
    std::vector<std::string_view> names;
    for (const auto& line : kUnits)
        if (line.group == groupOf(kind)) names.push_back(line.name);
    return names;
}

Result<RowUnit> rowUnitNamed(std::string_view name, TableRowKind kind) {
    for (const auto& line : kUnits)
        if (line.group == groupOf(kind) && line.name == name) return line.unit;
    return refuse(Code::BadUnit, "unit",
                  fmt::format("\"{}\" is no unit for a row of kind {}; write one of {}", name,
                              record::nameOf(kind), fmt::join(unitNamesFor(kind), ", ")));
}

}  // namespace evidence::trade

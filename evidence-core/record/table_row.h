#pragma once

#include "evidence-core/record/field.h"
#include "evidence-core/record/id.h"

#include <array>
#include <optional>
#include <string>

namespace evidence::record {

/// What a row of a trade table is good for. Persisted by name.
enum class TableRowKind {
    Length,              ///< a known thing's size: a scale reference, a gauge, a thread
    Density,             ///< mass of a volume
    WoodMovement,        ///< change of size for each per cent of moisture
    WoodShrinkage,       ///< from green to oven-dry
    CastingContraction,  ///< pattern against casting
    SheetChange,         ///< what paper and film may have come and gone by
    SurfaceLoss,         ///< corrosion
    Coating,             ///< paint, galvanising
    Expansion,           ///< heat
};

template <>
struct Names<TableRowKind> {
    static constexpr std::array<NameList<TableRowKind>, 9> all{
        {{"length", TableRowKind::Length},
         {"density", TableRowKind::Density},
         {"wood-movement", TableRowKind::WoodMovement},
         {"wood-shrinkage", TableRowKind::WoodShrinkage},
         {"casting-contraction", TableRowKind::CastingContraction},
         {"sheet-change", TableRowKind::SheetChange},
         {"surface-loss", TableRowKind::SurfaceLoss},
         {"coating", TableRowKind::Coating},
         {"expansion", TableRowKind::Expansion}}};
};

/// A row that people added to the trade tables of their archive: an example they measured, a table
/// they found. It always names its source. Its id is what `table_row` of a reference, a correction
/// or a reading remembers.
struct TableRow {
    std::string id;
    TableRowKind kind = TableRowKind::Length;
    std::string name;
    std::optional<std::string> measures;  ///< what exactly is that long
    double value = 0;                     ///< in `unit`
    std::string unit;
    double u = 0;  ///< standard, in `unit`
    std::optional<double> low;
    std::optional<double> high;
    std::optional<std::string> era;     ///< EDTF
    std::optional<std::string> region;  ///< in words
    SourceId source;
    std::optional<std::string> note;

    static constexpr auto fields() {
        return std::tuple{
            field("id", &TableRow::id),         field("kind", &TableRow::kind),
            field("name", &TableRow::name),     field("measures", &TableRow::measures),
            field("value", &TableRow::value),   field("unit", &TableRow::unit),
            field("u", &TableRow::u),           field("low", &TableRow::low),
            field("high", &TableRow::high),     field("era", &TableRow::era),
            field("region", &TableRow::region), field("source", &TableRow::source),
            field("note", &TableRow::note)};
    }
    friend bool operator==(const TableRow&, const TableRow&) = default;
};

}  // namespace evidence::record

#pragma once

#include "evidence-core/quantity/edtf.h"
#include "evidence-core/record/table_row.h"
#include "evidence-core/trade/place.h"
#include "evidence-core/trade/row_unit.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::trade {

/// One row of a trade table: a value with its spread, what it is of, when and where it held, and
/// who says so. Numbers are in `unit`, as in the source; `canonical` carries them over.
struct Row {
    std::string id;     ///< stable, never used for another row
    std::string table;  ///< name of its table; "own" where people of the archive added it
    record::TableRowKind kind = record::TableRowKind::Length;
    std::string name;
    std::string measures;  ///< which length exactly
    double value = 0;
    std::string valueText;  ///< as in the table
    RowUnit unit = RowUnit::Inch;
    double u = 0;  ///< standard
    std::optional<double> low;
    std::optional<double> high;  ///< practical limits of one unknown example
    std::string eraText;         ///< EDTF; empty: any time
    std::optional<quantity::EdtfDate> era;
    std::string region;         ///< in words
    std::vector<Place> places;  ///< those that the words name; none: anywhere
    std::string system;         ///< id of the system of sizes it belongs to, such as "swg"
    std::string size;           ///< what that system calls it, such as "16" or "2 thick"
    std::string source;         ///< in words; of an own row its source's title
    std::optional<record::SourceId> ownSource;
    bool fromMemory = false;  ///< not found in a public source: a starting point
    std::string note;

    [[nodiscard]] double canonical(double inUnit) const { return inUnit * factorToCanonical(unit); }
};

}  // namespace evidence::trade

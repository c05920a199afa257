#include "evidence-core/trade/tables.h"

#include "evidence-core/trade/csv_lines.h"
#include "evidence-core/trade/folded_words.h"
#include "evidence-core/trade/read_rows.h"
#include "evidence-core/trade/table_texts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evidence::trade {

std::string_view tableText(std::string_view name) {
    const auto texts = tableTexts();
    const auto found = std::ranges::find(texts, name, &TableText::name);
    assert(found != texts.end());
    return found == texts.end() ? std::string_view() : found->text;
}

namespace {

std::vector<CsvLine> linesOf(std::string_view name) {
    auto lines = csvLines(tableText(name));
    assert(lines && "a table that the program brings can be read");
    if (!lines) return {};
    lines->erase(lines->begin());
    return *std::move(lines);
}

bool isBlank(std::string_view text) {
    return folded(text).empty();
}

}  // namespace

Tables::Tables() {
    for (const auto& line : linesOf("tables")) {
        const auto kind = record::byName<record::TableRowKind>(line[1]);
        assert(kind && "tables.csv names kinds of rows");
        auto rows =
            readRows(line[0], kind.value_or(record::TableRowKind::Length), tableText(line[0]));
        assert(rows && "a table that the program brings can be read");
        if (rows)
            m_rows.insert(m_rows.end(), std::make_move_iterator(rows->begin()),
                          std::make_move_iterator(rows->end()));
    }
    for (const auto& line : linesOf("systems"))
        m_systems.push_back({line[0], line[1], parts(line[2], ';'), parts(line[3], ';')});
    for (const auto& line : linesOf("kinds")) m_kinds.push_back({line[0], parts(line[1], ';')});
}

const Tables& Tables::builtIn() {
    static const Tables kTables;
    return kTables;
}

Tables::Tables(const record::Register& reg) : Tables(builtIn()) {
    if (!reg.archive.settings) return;
    std::vector<Row> own;
    for (const auto& row : reg.archive.settings->tableRows)
        if (auto read = ownRow(row, reg.sources)) own.push_back(*std::move(read));
    m_rows.insert(m_rows.begin(), std::make_move_iterator(own.begin()),
                  std::make_move_iterator(own.end()));
}

const Row* Tables::find(std::string_view id) const {
    const auto found = std::ranges::find(m_rows, id, &Row::id);
    return found == m_rows.end() ? nullptr : &*found;
}

const System* Tables::system(std::string_view id) const {
    const auto found = std::ranges::find(m_systems, id, &System::id);
    return found == m_systems.end() ? nullptr : &*found;
}

Result<Row> ownRow(const record::TableRow& own, const std::vector<record::Source>& sources) {
    if (isBlank(own.id))
        return refuse(Code::MissingKey, "id", "a row of a table needs an id of its own");
    if (Tables::builtIn().find(own.id))
        return refuse(
            Code::DuplicateId, "id",
            fmt::format("the tables have a row \"{}\" already; give this one another id", own.id));
    if (isBlank(own.name)) return refuse(Code::MissingKey, "name", "say what the row is of");
    if (own.source.empty())
        return refuse(Code::MissingKey, "source",
                      "a row of a table names its source: enter the source, then the row");
    const auto source = std::ranges::find(sources, own.source, &record::Source::id);
    if (source == sources.end())
        return refuse(Code::MissingTarget, "source",
                      fmt::format("there is no source \"{}\" on record", own.source.text));
    Row row;
    const auto unit = rowUnitNamed(own.unit, own.kind);
    if (!unit) return tl::unexpected<Refusal>(unit.error());
    row.unit = *unit;
    if (!std::isfinite(own.value))
        return refuse(Code::NotFinite, "value", "the value is a finite number");
    if (own.kind == record::TableRowKind::Density && !(own.value > 0))
        return refuse(Code::BadValue, "value", "a density is more than 0");
    if (!(own.u > 0) || !std::isfinite(own.u))
        return refuse(Code::BadValue, "u",
                      "a row has a standard uncertainty of more than 0: no example is exact");
    if (own.low && !(*own.low <= own.value))
        return refuse(Code::BadValue, "low", "the lower limit is not above the value");
    if (own.high && !(*own.high >= own.value))
        return refuse(Code::BadValue, "high", "the upper limit is not below the value");
    if (own.era && !isBlank(*own.era)) {
        const auto era = quantity::parseEdtf(*own.era);
        if (!era) return refuse(Code::BadDate, "era", era.error().help);
        row.eraText = *own.era;
        row.era = *era;
    }
    if (own.region && !isBlank(*own.region)) {
        row.region = *own.region;
        row.places = placesIn(row.region);
        if (row.places.empty())
            return refuse(Code::BadValue, "region",
                          fmt::format("\"{}\" names no place known here; known are {}", row.region,
                                      allPlaces()));
    }
    row.id = own.id;
    row.table = "own";
    row.kind = own.kind;
    row.name = own.name;
    row.measures = own.measures.value_or("");
    row.value = own.value;
    row.valueText = fmt::format("{}", own.value);
    row.u = own.u;
    row.low = own.low;
    row.high = own.high;
    row.source = source->title;
    row.ownSource = own.source;
    row.note = own.note.value_or("");
    return row;
}

}  // namespace evidence::trade

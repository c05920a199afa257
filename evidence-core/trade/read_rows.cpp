#include "evidence-core/trade/read_rows.h"

#include "evidence-core/trade/csv_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace evidence::trade {

namespace {

tl::unexpected<Refusal> badLine(std::size_t number, std::string help) {
    return refuse(Code::BadDocument, fmt::format("line {}", number), std::move(help));
}

std::optional<double> number(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

class RowReader {
  public:
    RowReader(std::string_view table, record::TableRowKind kind, const CsvLine& names)
        : m_table(table), m_kind(kind), m_names(names) {}

    [[nodiscard]] Result<Row> read(const CsvLine& line, std::size_t at) const {
        const auto text = [&](std::string_view column) -> const std::string& {
            static const std::string kNothing;
            const auto found = std::ranges::find(m_names, column);
            return found == m_names.end() ? kNothing
                                          : line[static_cast<std::size_t>(found - m_names.begin())];
        };
        Row row;
        row.id = text("id");
        row.table = m_table;
        row.kind = m_kind;
        row.name = text("name");
        row.measures = text("measures");
        row.valueText = text("value");
        row.eraText = text("era");
        row.region = text("region");
        row.places = placesIn(row.region);
        row.system = text("system");
        row.size = text("size");
        row.source = text("source");
        row.fromMemory = text("from_memory") != "no";
        row.note = text("note");
        if (row.id.empty() || row.name.empty() || row.source.empty())
            return badLine(at, "a row needs an id, a name and a source");
        const auto value = number(row.valueText);
        const auto u = number(text("u"));
        if (!value || !u || !(*u > 0)) return badLine(at, "a row needs a value and a spread");
        row.value = *value;
        row.u = *u;
        row.low = number(text("low"));
        row.high = number(text("high"));
        const auto unit = rowUnitNamed(text("unit"), m_kind);
        if (!unit) return badLine(at, unit.error().help);
        row.unit = *unit;
        if (row.eraText.empty()) return row;
        const auto era = quantity::parseEdtf(row.eraText);
        if (!era) return badLine(at, era.error().help);
        row.era = *era;
        return row;
    }

  private:
    std::string m_table;
    record::TableRowKind m_kind;
    const CsvLine& m_names;
};

}  // namespace

Result<std::vector<Row>> readRows(std::string_view table, record::TableRowKind kind,
                                  std::string_view text) {
    const auto lines = csvLines(text);
    if (!lines) return tl::unexpected(lines.error());
    if (lines->empty()) return badLine(1, "the columns have no names");
    const RowReader reader(table, kind, lines->front());
    std::vector<Row> rows;
    for (std::size_t i = 1; i < lines->size(); ++i) {
        auto row = reader.read((*lines)[i], i + 1);
        if (!row) return tl::unexpected(row.error());
        rows.push_back(*std::move(row));
    }
    return rows;
}

}  // namespace evidence::trade

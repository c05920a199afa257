#include "tests/checks/table.h"

#include <charconv>
#include <fstream>
#include <numeric>
#include <sstream>
#include <stdexcept>

namespace checks {
namespace {

std::vector<std::string> cellsOf(const std::string& line, std::size_t least) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    if (cells.size() < least) cells.resize(least);
    return cells;
}

}  // namespace

Table::Table(const std::string& name) {
    std::ifstream file(LOSTLINES_TEST_DATA "/" + name);
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        if (m_columns.empty()) {
            for (const auto& column : cellsOf(line, 1)) m_columns.emplace(column, m_columns.size());
        } else {
            m_rows.push_back(cellsOf(line, m_columns.size()));
        }
    }
    if (m_rows.empty()) throw std::runtime_error("no rows in " + name);
}

const std::string& Table::text(std::size_t row, const std::string& column) const {
    return m_rows.at(row).at(m_columns.at(column));
}

std::optional<double> Table::number(std::size_t row, const std::string& column) const {
    const std::string& cell = text(row, column);
    const char* first = cell.data() + (cell.starts_with('+') ? 1 : 0);
    double out = 0;
    if (std::from_chars(first, cell.data() + cell.size(), out).ec != std::errc{})
        return std::nullopt;
    return out;
}

std::vector<std::size_t> Table::rowsWhere(const std::string& column,
                                          const std::string& value) const {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (text(i, column) == value) rows.push_back(i);
    return rows;
}

std::vector<double> Table::numbers(const std::string& column) const {
    std::vector<std::size_t> all(m_rows.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return numbers(column, all);
}

std::vector<double> Table::numbers(const std::string& column,
                                   const std::vector<std::size_t>& rows) const {
    std::vector<double> out;
    out.reserve(rows.size());
    for (const std::size_t row : rows) out.push_back(number(row, column).value());
    return out;
}

}  // namespace checks

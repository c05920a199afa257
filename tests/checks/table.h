#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

/// The tables of published data beside these tests (`data/`): comma-separated, the source in the
/// first lines behind a #, then the names of the columns.
namespace checks {

class Table {
  public:
    /// Of `data/NAME`. A table that is missing or empty fails the test.
    explicit Table(const std::string& name);

    [[nodiscard]] std::size_t size() const { return m_rows.size(); }
    [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const;
    [[nodiscard]] std::optional<double> number(std::size_t row, const std::string& column) const;
    /// Rows whose `column` holds `value`, in the table's order.
    [[nodiscard]] std::vector<std::size_t> rowsWhere(const std::string& column,
                                                     const std::string& value) const;
    /// Numbers of one column in all rows, or in those given.
    [[nodiscard]] std::vector<double> numbers(const std::string& column) const;
    [[nodiscard]] std::vector<double> numbers(const std::string& column,
                                              const std::vector<std::size_t>& rows) const;

  private:
    std::map<std::string, std::size_t> m_columns;
    std::vector<std::vector<std::string>> m_rows;
};

}  // namespace checks

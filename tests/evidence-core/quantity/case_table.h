#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Reads a small comma-separated table with doubled quotes and a UTF-8 byte-order mark; the first
/// row (names) is left out. For the tables under data/ only.
inline std::vector<std::vector<std::string>> readCaseTable(const std::string& name) {
    std::ifstream file(std::string(LOSTLINES_TEST_DATA) + "/" + name);
    if (!file) throw std::runtime_error("cannot open " + name);
    std::vector<std::vector<std::string>> rows;
    std::string line;
    while (std::getline(file, line)) {
        if (!line.empty() && line.back() == '\r') line.pop_back();
        std::vector<std::string> cells(1);
        bool quoted = false;
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
                cells.back().push_back('"');
                ++i;
            } else if (line[i] == '"') {
                quoted = !quoted;
            } else if (line[i] == ',' && !quoted) {
                cells.emplace_back();
            } else {
                cells.back().push_back(line[i]);
            }
        }
        rows.push_back(cells);
    }
    rows.erase(rows.begin());
    return rows;
}

#include "evidence-core/trade/csv_lines.h"

#include <fmt/format.h>

namespace evidence::trade {

namespace {

class CsvReader {
  public:
    explicit CsvReader(std::string_view text) : m_text(text) {}

    Result<std::vector<CsvLine>> read() {
        std::vector<CsvLine> lines;
        while (m_at < m_text.size()) {
            const std::size_t number = m_line;
            auto line = oneLine();
            if (!line) return tl::unexpected(line.error());
            if (!lines.empty() && line->size() != lines.front().size())
                return bad(number, fmt::format("{} fields where the first line has {}",
                                               line->size(), lines.front().size()));
            lines.push_back(*std::move(line));
        }
        return lines;
    }

  private:
    static tl::unexpected<Refusal> bad(std::size_t line, std::string help) {
        return refuse(Code::BadDocument, fmt::format("line {}", line), std::move(help));
    }

    Result<CsvLine> oneLine() {
        CsvLine fields;
        for (;;) {
            auto field = oneField();
            if (!field) return tl::unexpected(field.error());
            fields.push_back(*std::move(field));
            if (take(',')) continue;
            take('\r');
            if (take('\n') || m_at == m_text.size()) break;
            return bad(m_line, "a field that holds quotes stands in quotes as a whole");
        }
        ++m_line;
        return fields;
    }

    Result<std::string> oneField() {
        std::string field;
        if (!take('"')) {
            while (m_at < m_text.size() && m_text[m_at] != ',' && m_text[m_at] != '\n' &&
                   m_text[m_at] != '\r' && m_text[m_at] != '"')
                field += m_text[m_at++];
            return field;
        }
        const std::size_t begun = m_line;
        while (m_at < m_text.size()) {
            if (take('"')) {
                if (!take('"')) return field;
                field += '"';
                continue;
            }
            if (m_text[m_at] == '\n') ++m_line;
            field += m_text[m_at++];
        }
        return bad(begun, "a quoted field has no end");
    }

    bool take(char c) {
        if (m_at >= m_text.size() || m_text[m_at] != c) return false;
        ++m_at;
        return true;
    }

    std::string_view m_text;
    std::size_t m_at = 0;
    std::size_t m_line = 1;
};

}  // namespace

Result<std::vector<CsvLine>> csvLines(std::string_view text) {
    return CsvReader(text).read();
}

}  // namespace evidence::trade

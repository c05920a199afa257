#include "evidence-core/store/search_index.h"

#include <SQLiteCpp/Statement.h>

#include <array>
#include <map>
#include <optional>
#include <type_traits>
#include <variant>

namespace evidence::store {

namespace {

/// Gathers the texts of a record, one a line.
class TextGatherer {
  public:
    [[nodiscard]] std::string take() && { return std::move(m_texts); }

    template <record::Described T>
    void gather(const T& value) {
        record::forEachField(value, [&](std::string_view key, const auto& member) {
            if (key != "sha256" && key != "digest" && key != "register_digest") gather(member);
        });
    }
    void gather(const std::string& text) { m_texts += text + '\n'; }
    template <record::Named E>
    void gather(E value) {
        gather(std::string(record::nameOf(value)));
    }
    template <class T>
    void gather(const std::optional<T>& value) {
        if (value) gather(*value);
    }
    template <class T>
    void gather(const std::vector<T>& list) {
        for (const auto& item : list) gather(item);
    }
    template <class T, std::size_t N>
    void gather(const std::array<T, N>& list) {
        for (const auto& item : list) gather(item);
    }
    template <class... T>
    void gather(const std::variant<T...>& value) {
        std::visit([&](const auto& held) { gather(held); }, value);
    }
    template <class Tag>
    void gather(const record::Id<Tag>&) {}
    void gather(const record::Number&) {}
    void gather(const record::PixelPoint&) {}
    void gather(const std::map<std::string, double>&) {}
    template <class T>
    requires std::is_arithmetic_v<T>
    void gather(T) {}

  private:
    std::string m_texts;
};

/// Each word quoted and as a beginning; quotes inside are doubled (FTS5, 3.1).
std::string matchExpression(std::string_view words) {
    std::string expression;
    std::string word;
    const auto close = [&] {
        if (!word.empty()) expression += '"' + word + "\"* ";
        word.clear();
    };
    for (const char c : words) {
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r')
            close();
        else if (c == '"')
            word += "\"\"";
        else if (c != '\0')
            word += c;
    }
    close();
    return expression;
}

}  // namespace

void addToIndex(SQLite::Database& db, std::int64_t number, const record::AnyRecord& record) {
    TextGatherer texts;
    std::visit([&](const auto& held) { texts.gather(held); }, record);
    SQLite::Statement insert(db, "INSERT INTO search (rowid, body) VALUES (?, ?)");
    insert.bind(1, number);
    insert.bind(2, std::move(texts).take());
    insert.exec();
}

void removeFromIndex(SQLite::Database& db, std::int64_t number) {
    SQLite::Statement remove(db, "DELETE FROM search WHERE rowid = ?");
    remove.bind(1, number);
    remove.exec();
}

std::vector<RegisterStore::Hit> searchIndex(SQLite::Database& db, std::string_view words,
                                            int most) {
    std::vector<RegisterStore::Hit> hits;
    const std::string expression = matchExpression(words);
    if (expression.empty()) return hits;
    SQLite::Statement query(db,
                            "SELECT record.kind, record.id, snippet(search, 0, '[', ']', '…', 16) "
                            "FROM search JOIN record ON record.number = search.rowid "
                            "WHERE search MATCH ? ORDER BY bm25(search), record.number LIMIT ?");
    query.bind(1, expression);
    query.bind(2, most);
    while (query.executeStep())
        hits.push_back({query.getColumn(0).getString(),
                        record::AnyId{query.getColumn(1).getString()},
                        query.getColumn(2).getString()});
    return hits;
}

}  // namespace evidence::store

#include "evidence-core/store/record_table.h"

#include "evidence-core/exchange/from_json.h"
#include "evidence-core/exchange/json_text.h"
#include "evidence-core/exchange/record_json.h"
#include "evidence-core/exchange/to_json.h"

#include <SQLiteCpp/Statement.h>

#include <type_traits>

namespace evidence::store {

namespace {

using exchange::JsonReader;

template <class T>
struct Plain {
    using Type = T;
};
template <class T>
struct Plain<std::optional<T>> {
    using Type = T;
};

template <class T>
inline constexpr bool isId = false;
template <class Tag>
inline constexpr bool isId<record::Id<Tag>> = true;

// How a member stands in its column.

template <class T>
void bindPlain(SQLite::Statement& statement, int index, const T& value) {
    if constexpr (std::is_same_v<T, std::string>)
        statement.bind(index, value);
    else if constexpr (isId<T>)
        statement.bind(index, value.text);
    else if constexpr (std::is_same_v<T, bool>)
        statement.bind(index, value ? 1 : 0);
    else if constexpr (std::is_arithmetic_v<T>)
        statement.bind(index, value);
    else if constexpr (record::Named<T>)
        statement.bind(index, std::string(record::nameOf(value)));
    else
        statement.bind(index, printJson(exchange::toJson(value), exchange::Layout::Compact));
}

template <class T>
void bindMember(SQLite::Statement& statement, int index, const T& member) {
    bindPlain(statement, index, member);
}
template <class T>
void bindMember(SQLite::Statement& statement, int index, const std::optional<T>& member) {
    if (member)
        bindPlain(statement, index, *member);
    else
        statement.bind(index);
}
template <class T>
void bindMember(SQLite::Statement& statement, int index, const std::vector<T>& member) {
    if (member.empty())
        statement.bind(index);
    else
        bindPlain(statement, index, member);
}

bool readJson(JsonReader& reader, const SQLite::Column& column, auto& out) {
    const auto json = exchange::parseJson(column.getString());
    if (!json) return reader.refuseHere(json.error().code, json.error().help);
    return fromJson(reader, *json, out);
}

template <class T>
bool readPlain(JsonReader& reader, const SQLite::Column& column, T& out) {
    if constexpr (std::is_same_v<T, std::string>) {
        out = column.getString();
    } else if constexpr (isId<T>) {
        out.text = column.getString();
    } else if constexpr (std::is_same_v<T, bool>) {
        out = column.getInt() != 0;
    } else if constexpr (std::is_same_v<T, double>) {
        out = column.getDouble();
    } else if constexpr (std::is_same_v<T, int>) {
        out = column.getInt();
    } else if constexpr (std::is_same_v<T, std::int64_t>) {
        out = column.getInt64();
    } else if constexpr (record::Named<T>) {
        const auto value = record::byName<T>(column.getString());
        if (!value) return reader.refuseHere(Code::BadValue, "unknown word");
        out = *value;
    } else {
        return readJson(reader, column, out);
    }
    return true;
}

template <class T>
bool readMember(JsonReader& reader, const SQLite::Column& column, T& out) {
    if (column.isNull()) return true;
    if constexpr (!std::is_same_v<T, typename Plain<T>::Type>)
        return readPlain(reader, column, out.emplace());
    else
        return readPlain(reader, column, out);
}

// The statements, from the record's list of fields.

template <class Record>
std::string columnList() {
    std::string columns;
    const Record model;
    record::forEachField(model, [&](std::string_view key, const auto&) {
        columns += (columns.empty() ? "\"" : ", \"") + std::string(key) + '"';
    });
    return columns;
}

template <class Record>
bool readRow(JsonReader& reader, SQLite::Statement& row, Record& out) {
    int index = 0;
    bool ok = true;
    record::forEachField(out, [&](std::string_view key, auto& member) {
        const JsonReader::Step step(reader, key);
        ok = ok && readMember(reader, row.getColumn(index), member);
        ++index;
    });
    return ok;
}

Refusal damagedAt(JsonReader& reader, std::string_view table) {
    const Refusal found = reader.takeRefusal();
    return {Code::Damaged, std::string(table) + found.place,
            "the register is damaged here: " + found.help};
}

template <class Record>
std::string_view tableName() {
    static const std::string_view name = exchange::tableOf(record::AnyRecord(Record{}));
    return name;
}

template <class Record>
std::string rowCondition() {
    return std::is_same_v<Record, record::ArchiveInfo> ? "position = 1" : "id = ?";
}

}  // namespace

Result<record::Register> loadTables(SQLite::Database& db) {
    record::Register reg;
    JsonReader reader;
    std::string_view damagedTable;
    const auto load = [&]<class Record>(std::string_view table, auto&& take) {
        if (reader.refused()) return;
        SQLite::Statement rows(db, "SELECT " + columnList<Record>() + " FROM \"" +
                                       std::string(table) + "\" ORDER BY position");
        while (rows.executeStep()) {
            Record record;
            if (!readRow(reader, rows, record)) {
                damagedTable = table;
                return;
            }
            take(std::move(record));
        }
    };
    load.operator()<record::ArchiveInfo>(
        "archive", [&](record::ArchiveInfo&& info) { reg.archive = std::move(info); });
    record::forEachTable(reg, [&](std::string_view table, auto& records) {
        using Record = typename std::decay_t<decltype(records)>::value_type;
        load.template operator()<Record>(
            table, [&](Record&& record) { records.push_back(std::move(record)); });
    });
    if (reader.refused()) return tl::unexpected<Refusal>(damagedAt(reader, damagedTable));
    return reg;
}

Result<std::optional<record::AnyRecord>> loadRecord(SQLite::Database& db,
                                                    const record::AnyRecord& model) {
    return std::visit(
        [&]<class Record>(const Record& like) -> Result<std::optional<record::AnyRecord>> {
            SQLite::Statement row(db, "SELECT " + columnList<Record>() + " FROM \"" +
                                          std::string(tableName<Record>()) + "\" WHERE " +
                                          rowCondition<Record>());
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>) row.bind(1, like.id.text);
            if (!row.executeStep()) return std::optional<record::AnyRecord>();
            JsonReader reader;
            Record record;
            if (!readRow(reader, row, record))
                return tl::unexpected<Refusal>(damagedAt(reader, tableName<Record>()));
            return std::optional<record::AnyRecord>(std::move(record));
        },
        model);
}

void insertRecord(SQLite::Database& db, const record::AnyRecord& record) {
    std::visit(
        [&]<class Record>(const Record& held) {
            std::string marks;
            record::forEachField(
                held, [&](std::string_view, const auto&) { marks += marks.empty() ? "?" : ", ?"; });
            SQLite::Statement insert(db, "INSERT INTO \"" + std::string(tableName<Record>()) +
                                             "\" (" + columnList<Record>() + ") VALUES (" + marks +
                                             ")");
            int index = 0;
            record::forEachField(held, [&](std::string_view, const auto& member) {
                bindMember(insert, ++index, member);
            });
            insert.exec();
        },
        record);
}

void updateRecord(SQLite::Database& db, const record::AnyRecord& record) {
    std::visit(
        [&]<class Record>(const Record& held) {
            // The id stays out: SQLite need not look for rows that refer to it.
            std::string columns;
            record::forEachField(held, [&](std::string_view key, const auto&) {
                if (key != "id")
                    columns += (columns.empty() ? "\"" : ", \"") + std::string(key) + "\" = ?";
            });
            SQLite::Statement update(db, "UPDATE \"" + std::string(tableName<Record>()) +
                                             "\" SET " + columns + " WHERE " +
                                             rowCondition<Record>());
            int index = 0;
            record::forEachField(held, [&](std::string_view key, const auto& member) {
                if (key != "id") bindMember(update, ++index, member);
            });
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>)
                update.bind(++index, held.id.text);
            update.exec();
        },
        record);
}

void deleteRecord(SQLite::Database& db, const record::AnyRecord& record) {
    std::visit(
        [&]<class Record>(const Record& held) {
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>) {
                SQLite::Statement remove(
                    db, "DELETE FROM \"" + std::string(tableName<Record>()) + "\" WHERE id = ?");
                remove.bind(1, held.id.text);
                remove.exec();
            }
        },
        record);
}

}  // namespace evidence::store

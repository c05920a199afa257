#include "evidence-core/exchange/record_json.h"

#include "evidence-core/exchange/from_json.h"
#include "evidence-core/exchange/to_json.h"

#include <optional>
#include <type_traits>

namespace evidence::exchange {

Json toJson(const record::AnyRecord& record) {
    return std::visit([](const auto& held) { return toJson(held); }, record);
}

std::string_view tableOf(const record::AnyRecord& record) {
    if (std::holds_alternative<record::ArchiveInfo>(record)) return "archive";
    return std::visit(
        [](const auto& held) {
            std::string_view name;
            std::apply(
                [&](const auto&... tables) {
                    const auto compare = [&](const auto& table) {
                        using Table = std::decay_t<decltype(std::declval<record::Register>().*
                                                            (table.member))>;
                        if constexpr (std::is_same_v<typename Table::value_type,
                                                     std::decay_t<decltype(held)>>)
                            name = table.key;
                    };
                    (compare(tables), ...);
                },
                record::Register::tables());
            return name;
        },
        record);
}

namespace {

template <class Record>
Result<record::AnyRecord> read(const Json& json) {
    JsonReader reader;
    Record record;
    if (!fromJson(reader, json, record)) return tl::unexpected<Refusal>(reader.takeRefusal());
    return record::AnyRecord(std::move(record));
}

}  // namespace

Result<record::AnyRecord> recordFromJson(std::string_view table, const Json& json) {
    if (table == "archive") return read<record::ArchiveInfo>(json);
    std::optional<Result<record::AnyRecord>> result;
    const record::Register model;
    record::forEachTable(model, [&](std::string_view name, const auto& records) {
        if (name == table)
            result = read<typename std::decay_t<decltype(records)>::value_type>(json);
    });
    if (!result) return refuse(Code::WrongUse, std::string(table), "there is no such table");
    return std::move(*result);
}

}  // namespace evidence::exchange

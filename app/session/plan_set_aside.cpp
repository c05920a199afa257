#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;

namespace {

template <class Record>
concept CanBeSetAside = requires(Record record) {
    record.setAside = std::string();
};

/// The record itself, to be changed; nothing where it is of a kind that cannot be set aside.
std::optional<record::AnyRecord> found(const record::Register& reg, const record::AnyId& id) {
    std::optional<record::AnyRecord> copy;
    record::forEachTable(reg, [&](std::string_view, const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        if constexpr (CanBeSetAside<Record>) {
            for (const auto& record : table)
                if (record.id.text == id.text) copy = record;
        }
    });
    return copy;
}

std::string called(const record::AnyRecord& any) {
    return std::visit(
        []<class Record>(const Record& record) {
            if constexpr (requires { record.code; })
                if (record.code) return *record.code;
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>)
                return fmt::format("{} {}", record::nameOf(record::KindOf<Record>), record.id.text);
            return std::string();
        },
        any);
}

}  // namespace

evidence::Result<record::ChangeSet> planSetAside(const Context& context, const record::AnyId& id,
                                                 const std::string& reason) {
    const auto before = found(context.reg, id);
    if (!before) {
        const auto kind = record::RegisterIndex(context.reg).kindOf(id);
        if (!kind)
            return refuse(Code::MissingTarget, "record",
                          fmt::format("there is no record \"{}\"", id.text));
        return refuse(Code::WrongUse, "record",
                      fmt::format("the record is of the kind \"{}\", which is never set aside",
                                  record::nameOf(*kind)));
    }
    const auto why = required(reason, "reason", "say why it is set aside; it stays on record");
    if (!why) return tl::unexpected<Refusal>(why.error());

    record::AnyRecord after = *before;
    const bool already = std::visit(
        [&]<class Record>(Record& record) {
            if constexpr (CanBeSetAside<Record>) {
                if (record.setAside) return true;
                record.setAside = *why;
            }
            return false;
        },
        after);
    if (already) return refuse(Code::WrongUse, "record", called(*before) + " is set aside already");
    return checked(context, {"set aside " + called(*before), {{before, std::move(after)}}});
}

}  // namespace app::session

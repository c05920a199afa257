#include "evidence-core/record/change.h"

#include <algorithm>
#include <cassert>
#include <type_traits>

namespace evidence::record {

namespace {

template <class Record>
void applyTo(Register& reg, const std::optional<AnyRecord>& before, const Record* after) {
    if constexpr (std::is_same_v<Record, ArchiveInfo>) {
        if (after) reg.archive = *after;
    } else {
        forEachTable(reg, [&](std::string_view, auto& table) {
            if constexpr (std::is_same_v<typename std::decay_t<decltype(table)>::value_type,
                                         Record>) {
                if (!before) {
                    table.push_back(*after);
                    return;
                }
                const auto& old = std::get<Record>(*before);
                const auto found = std::ranges::find(table, old.id, &Record::id);
                assert(found != table.end() && *found == old);
                if (after)
                    *found = *after;
                else
                    table.erase(found);
            }
        });
    }
}

}  // namespace

ChangeSet inverse(const ChangeSet& set) {
    ChangeSet back{set.what, {}};
    for (auto it = set.changes.rbegin(); it != set.changes.rend(); ++it)
        back.changes.push_back({it->after, it->before});
    return back;
}

Register applied(Register reg, const ChangeSet& set) {
    for (const auto& change : set.changes) {
        assert(change.before || change.after);
        const AnyRecord& model = change.after ? *change.after : *change.before;
        std::visit(
            [&](const auto& record) {
                using Record = std::decay_t<decltype(record)>;
                applyTo<Record>(reg, change.before,
                                change.after ? &std::get<Record>(*change.after) : nullptr);
            },
            model);
    }
    return reg;
}

}  // namespace evidence::record

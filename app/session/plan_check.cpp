#include "app/session/plan_check.h"

#include "evidence-core/exchange/register_check.h"
#include "evidence-core/network/worth.h"
#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

#include <optional>
#include <type_traits>

namespace app::session {

namespace {

namespace exchange = evidence::exchange;
namespace network = evidence::network;
namespace record = evidence::record;

using evidence::Refusal;

/// The acting person may not be on record yet: `Archive::perform` sees to it.
record::Register after(const Context& context, const record::ChangeSet& set) {
    record::Register reg = record::applied(context.reg, set);
    if (!record::find(reg, context.by)) reg.people.push_back({context.by, "", {}, {}});
    return reg;
}

/// What would stop the analysis of the whole register.
std::optional<Refusal> unusable(const record::Register& reg, const record::Reading& reading) {
    const auto* dimension = record::find(reg, record::DimensionId{reading.of.text});
    if (!dimension) return std::nullopt;
    const auto usable = network::checkReading(reading, *dimension, "");
    return usable ? std::nullopt : std::optional(usable.error());
}
std::optional<Refusal> unusable(const record::Register&, const record::Frame& frame) {
    for (std::size_t i = 0; i < frame.references.size(); ++i) {
        const auto usable = network::checkLength(frame.references[i].length,
                                                 fmt::format("/references/{}/length", i));
        if (!usable) return usable.error();
    }
    return std::nullopt;
}
template <class Record>
std::optional<Refusal> unusable(const record::Register&, const Record&) {
    return std::nullopt;
}

std::optional<Refusal> refusalOf(const record::Register& reg, const record::RegisterIndex& index,
                                 const record::AnyRecord& made) {
    exchange::JsonReader reader;
    const exchange::CheckContext check{reg, index, reader};
    return std::visit(
        [&]<class Record>(const Record& record) -> std::optional<Refusal> {
            if constexpr (!std::is_same_v<Record, record::ArchiveInfo>)
                if (!exchange::checkReferences(check, record)) return reader.takeRefusal();
            if (!exchange::checkSense(check, record)) return reader.takeRefusal();
            return unusable(reg, record);
        },
        made);
}

}  // namespace

std::string sameField(const record::AnyRecord&, std::string_view pointer) {
    return std::string(pointer.substr(pointer.starts_with('/') ? 1 : 0));
}

evidence::Result<record::ChangeSet> checked(const Context& context, record::ChangeSet set,
                                            const FieldOf& fieldOf) {
    const record::Register reg = after(context, set);
    const record::RegisterIndex index(reg);
    for (const auto& change : set.changes) {
        if (!change.after) continue;
        auto refusal = refusalOf(reg, index, *change.after);
        if (!refusal) continue;
        // The place may end with where in the text it is: "/value, character 3".
        const std::string_view pointer =
            std::string_view(refusal->place).substr(0, refusal->place.find(','));
        return refuse(refusal->code, fieldOf(*change.after, pointer), std::move(refusal->help));
    }
    return set;
}

}  // namespace app::session

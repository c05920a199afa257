#include "app/session/new_dimension.h"

#include "app/session/given_text.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

evidence::Result<const record::Dimension*> dimensionNamed(
    const record::Register& reg, const std::string& name,
    const std::optional<std::string>& component) {
    const record::Dimension* found = nullptr;
    for (const auto& dimension : reg.dimensions) {
        if (dimension.setAside || dimension.name != name) continue;
        if (component && dimension.component != component) continue;
        if (found)
            return refuse(Code::DuplicateId, "component",
                          fmt::format("{} and {} are both called \"{}\"; choose one of them",
                                      found->code.value_or(found->id.text),
                                      dimension.code.value_or(dimension.id.text), name));
        found = &dimension;
    }
    return found;
}

evidence::Result<record::Dimension> newDimension(const Context& context,
                                                 const DimensionDraft& draft) {
    const auto name = required(draft.name, "name", "a dimension needs a name");
    if (!name) return tl::unexpected(name.error());
    record::Dimension dimension;
    dimension.id = {record::newUuid7()};
    dimension.code = record::nextCode(context.reg, 'D');
    dimension.name = *name;
    dimension.component = draft.component ? given(*draft.component) : std::nullopt;
    dimension.quantity = draft.quantity;
    dimension.unit = draft.unit ? given(*draft.unit) : std::nullopt;
    dimension.tolerance = draft.tolerance;
    if (draft.critical) dimension.critical = true;
    for (const auto& other : context.reg.dimensions)
        if (!other.setAside && other.name == dimension.name &&
            other.component == dimension.component)
            return refuse(Code::DuplicateId, "name",
                          fmt::format("{} is called \"{}\" already; give this one another name",
                                      other.code.value_or(other.id.text), other.name));
    return dimension;
}

}  // namespace app::session

#pragma once

#include "app/session/actions.h"

#include <optional>
#include <string>

namespace app::session {

/// The dimension of that name and component which is not set aside; null where there is none.
/// Without a component only the name counts. Error: DuplicateId at "component" where several
/// dimensions have the name.
[[nodiscard]] evidence::Result<const evidence::record::Dimension*> dimensionNamed(
    const evidence::record::Register& reg, const std::string& name,
    const std::optional<std::string>& component);

/// A dimension with a new id and the next free code. Errors: MissingKey at "name"; DuplicateId at
/// "name" where the component has a dimension of that name already.
[[nodiscard]] evidence::Result<evidence::record::Dimension> newDimension(
    const Context& context, const DimensionDraft& draft);

}  // namespace app::session

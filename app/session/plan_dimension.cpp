#include "app/session/new_dimension.h"
#include "app/session/plan_check.h"

namespace app::session {

namespace record = evidence::record;

evidence::Result<record::ChangeSet> planDimension(const Context& context,
                                                  const DimensionDraft& draft) {
    const auto dimension = newDimension(context, draft);
    if (!dimension) return tl::unexpected(dimension.error());
    return checked(context, {"add " + *dimension->code, {{std::nullopt, *dimension}}});
}

}  // namespace app::session

#pragma once

#include "app/session/known_confines.h"

#include <optional>

namespace app::session {

/// One relation, asked about one of the sizes in it.
struct RelationTold {
    std::string words;  ///< in names
    std::vector<evidence::record::DimensionId> others;
    RelationSays says = RelationSays::Nothing;
    std::string size;
};

/// Solves the relation for `dimension` by Newton's method, the others at their present values; says
/// nothing where one of them has none, or where there is no solution. ± adds the 95 % half-widths
/// of the others up, since they may err together. Nothing at all where the dimension does not stand
/// in the relation or the formula cannot be read.
[[nodiscard]] std::optional<RelationTold> whatRelationSays(
    const evidence::record::Relation& relation, const evidence::record::Dimension& dimension,
    const evidence::record::Register& reg, const evidence::judgement::Analysis& analysis);

}  // namespace app::session

#pragma once

#include "evidence-core/judgement/analysis.h"

#include <algorithm>
#include <string_view>

namespace app::session {

/// What an analysis says of one dimension; null where it says nothing.
[[nodiscard]] inline const evidence::judgement::DimensionResult* resultOfDimension(
    const evidence::judgement::Analysis& analysis, std::string_view id) {
    const auto found = std::ranges::find_if(
        analysis.dimensions, [&](const auto& result) { return result.id.text == id; });
    return found == analysis.dimensions.end() ? nullptr : &*found;
}

/// The same of one particular.
[[nodiscard]] inline const evidence::judgement::ParticularResult* resultOfParticular(
    const evidence::judgement::Analysis& analysis, std::string_view id) {
    const auto found = std::ranges::find_if(
        analysis.particulars, [&](const auto& result) { return result.id.text == id; });
    return found == analysis.particulars.end() ? nullptr : &*found;
}

}  // namespace app::session

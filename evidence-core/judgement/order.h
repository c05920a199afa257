#pragma once

#include "evidence-core/judgement/context.h"

#include <string>
#include <string_view>
#include <vector>

/// Private to judgement/: the order of lists in an answer, which never depends on ids or entry.
namespace evidence::judgement {

/// D2 before D12: letters by letters, figures by their number.
[[nodiscard]] bool codeBefore(std::string_view a, std::string_view b);

/// Indices of the solution's dimensions: by code, then name, component and evidence.
[[nodiscard]] std::vector<std::size_t> orderOfDimensions(const Context& context);
/// Of some of the solution's readings: by what they say.
[[nodiscard]] std::vector<std::size_t> orderOfReadings(const Context& context,
                                                       std::vector<std::size_t> readings);
[[nodiscard]] std::vector<std::size_t> orderOfRelations(const Context& context);
[[nodiscard]] std::vector<std::size_t> orderOfFrames(const Context& context);

}  // namespace evidence::judgement

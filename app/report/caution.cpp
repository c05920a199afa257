#include "app/report/caution.h"

#include <algorithm>

namespace app::report {

Caution cautionOn(const evidence::record::Dimension& dimension,
                  const evidence::judgement::DimensionResult& result) {
    if (!dimension.critical.value_or(false)) return Caution::None;
    if (result.restsOnGuess) return Caution::RestsOnGuess;
    const bool conflict = std::ranges::any_of(result.flags, [](const std::string& flag) {
        return flag == "conflict" || flag == "loop-open" || flag == "limits-exclude";
    });
    return conflict ? Caution::InConflict : Caution::None;
}

}  // namespace app::report

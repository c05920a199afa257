#pragma once

#include "evidence-core/judgement/context.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

/// Private to judgement/finding/: how long guesses have been in use. The analysis has no clock: an
/// age is counted to the latest dated entry of the register, so that the same register gives the
/// same answer on any day.
namespace evidence::judgement {

/// The day of the latest reading, enquiry, ruling, slip or made part; absent where none is dated.
[[nodiscard]] std::optional<int> latestEntry(const record::Register& reg);

/// Adds when the oldest dated guess among `leaves` was made, and `age_days`; nothing where none is
/// dated.
void addAge(const Context& context, const std::vector<std::size_t>& leaves, std::string& text,
            std::vector<std::pair<std::string, double>>& numbers);

}  // namespace evidence::judgement

#pragma once

#include "imaging/mark/mark.h"
#include "imaging/task/quantities.h"
#include "imaging/task/task.h"

#include <optional>
#include <string>
#include <vector>

namespace imaging::task {

/// The answer of `measure` as JSON text (exchange.md), 12 significant digits, in the task's order.
/// Beyond the contract: `frame.notes`, and with a mark `fit` (a circle's centre, radius,
/// covariance), `made` and `width_px` (of a drawn line).
[[nodiscard]] std::string answerJson(const Task& task, const std::vector<mark::FittedMark>& marks,
                                     const std::optional<SolvedFrame>& frame,
                                     const std::vector<Answer>& answers);

}  // namespace imaging::task

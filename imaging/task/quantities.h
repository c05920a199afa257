#pragma once

#include "imaging/task/frame_of_task.h"

#include <string>
#include <vector>

namespace imaging::task {

struct Answer {
    std::string id;
    double value = 0;
    double u = 0;
    double low95 = 0;
    double high95 = 0;
    std::string unit;
};

/// One entry of `measure` through the frame, in the task's unit or in degrees: its marks are
/// carried to inches and measured there. Errors name the entry and its marks: BadValue where they
/// do not give that quantity, or lie where the frame cannot carry them (at the vanishing line).
[[nodiscard]] Result<Answer> answerEntry(const Task& task, std::size_t entry,
                                         const std::vector<mark::FittedMark>& marks,
                                         const SolvedFrame& frame);

}  // namespace imaging::task

#pragma once

#include "imaging/frame/scale.h"
#include "imaging/mark/mark.h"
#include "imaging/task/task.h"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace imaging::task {

/// A number that hangs on marks and on reference lengths, to first order. A mark's parameters are
/// its coordinates, or centre x, centre y and radius for a circle.
struct Linear {
    double value = 0;
    std::vector<Eigen::RowVectorXd> byMark;  ///< one for each mark of the task; empty: no influence
    std::vector<double> byReference;         ///< ∂value/∂(inches) for each reference
    double byPrint = 0;                      ///< ∂value/∂(scale) where the scale is printed
};

struct SolvedFrame {
    Linear scale;         ///< inches per pixel
    frame::Scale fit;     ///< of a uniform frame
    double uPrinted = 0;  ///< of the scale of a printed frame
    double uScale = 0;    ///< standard uncertainty of the scale
    double parallelRelative = 0;
    std::vector<std::string> notes;
};

struct Answer {
    std::string id;
    double value = 0;
    double u = 0;
    double low95 = 0;
    double high95 = 0;
    std::string unit;
};

/// Scale of the task's frame from its fitted marks. NoSolution and BadValue name the marks by id.
[[nodiscard]] Result<SolvedFrame> solveFrame(const Task& task,
                                             const std::vector<mark::FittedMark>& marks);

/// One entry of `measure` through the frame, in the task's unit or in degrees.
[[nodiscard]] Result<Answer> answerEntry(const Task& task, std::size_t entry,
                                         const std::vector<mark::FittedMark>& marks,
                                         const SolvedFrame& frame);

}  // namespace imaging::task

#pragma once

#include "imaging/frame/known.h"
#include "imaging/frame/scale.h"
#include "imaging/frame/solve_camera.h"
#include "imaging/frame/solve_lens.h"
#include "imaging/frame/solve_line.h"
#include "imaging/frame/solve_plane.h"
#include "imaging/frame/solve_upright.h"
#include "imaging/mark/mark.h"
#include "imaging/task/task.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace imaging::task {

/// One scale for the whole sheet: `uniform`, `printed`.
struct ScaleSolution {
    frame::Tracked scale;  ///< inches per px
    double uScale = 0;
    std::optional<frame::Scale> fit;  ///< of a uniform frame
};

/// What a reference or known point says beside the solved frame.
struct Check {
    std::size_t mark = 0;
    double residual = 0;        ///< known less adjusted, inches; of a camera's point px
    std::optional<double> w;    ///< none without redundancy
    std::optional<double> mde;  ///< inches; likewise
};

/// A task's frame, solved: all inputs, the marks among them, and the model's own solution.
struct SolvedFrame {
    frame::Inputs inputs;
    Eigen::VectorXd values;                ///< of the inputs
    std::vector<frame::Feature> features;  ///< one for each mark of the task
    std::optional<frame::LensInput> lens;
    std::optional<frame::LensSolution> lensFit;
    std::variant<ScaleSolution, frame::PlaneSolution, frame::LineSolution, frame::UprightSolution,
                 frame::CameraSolution>
        solution;
    double parallelRelative = 0;
    double floorPx = 0;  ///< added to each coordinate of fitted marks
    double rmsPx = 0;
    std::vector<Check> references;
    std::vector<Check> points;
    std::vector<std::string> notes;

    [[nodiscard]] frame::Reader reader() const { return {values, lens}; }
    [[nodiscard]] const frame::Adjustment* adjustment() const;
    /// A number on inputs and parameters as one on inputs alone.
    [[nodiscard]] frame::Tracked folded(const frame::Tracked& number) const;
};

/// Picture size, for the principal point where none is given.
struct PictureSize {
    int width = 0;
    int height = 0;
};

/// Frame of the task from its fitted marks. NoSolution and BadValue name the marks by id.
/// On photographs in perspective each coordinate of a mark fitted to pixels gets the floor that
/// real pictures show (docs/method/frames.md, "Floor").
[[nodiscard]] Result<SolvedFrame> solveFrame(const Task& task,
                                             const std::vector<mark::FittedMark>& marks,
                                             const PictureSize& picture,
                                             const std::optional<frame::LensSolution>& lens = {});

}  // namespace imaging::task

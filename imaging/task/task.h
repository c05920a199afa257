#pragma once

#include "imaging/mark/mark.h"
#include "imaging/refusal.h"
#include "imaging/task/length_text.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The task as values: what was asked, checked for form but not yet measured.
namespace imaging::task {

struct TaskMark {
    std::string id;
    mark::MarkRequest request;
};

/// A length with what is known of its error: `u` standard and normal, or `rectangular` half-width.
struct KnownLength {
    double inches = 0;
    double normal = 0;
    double rectangular = 0;
    bool exact = false;  ///< nobody gave an uncertainty
    [[nodiscard]] double u() const;
};

struct TaskReference {
    std::size_t mark = 0;
    KnownLength length;
    bool checkOnly = false;
    std::size_t index = 0;  ///< place in the task's list
};

struct Printed {
    double dpi = 0;
    double drawnScale = 0;
    double uRelative = 0;
};

/// A mark whose place is known, in inches.
struct TaskPoint {
    std::size_t mark = 0;
    std::vector<double> at;  ///< 1, 2 or 3 coordinates
    double u = 0;            ///< standard, of each coordinate; 0: exact
    std::size_t index = 0;   ///< place in the task's list
};

enum class FrameModel { Uniform, Printed, Stretch, Plane, Line, Upright, Camera };

using MarkGroup = std::vector<std::size_t>;

struct TaskFrame {
    FrameModel model = FrameModel::Uniform;
    std::string modelName;
    std::vector<TaskReference> references;
    std::vector<TaskPoint> points;
    std::optional<Printed> print;
    std::vector<MarkGroup> parallel;
    std::vector<MarkGroup> square;
    std::vector<MarkGroup> ground;
    MarkGroup vertical;
    MarkGroup straight;
    double parallelWithin = 0;  ///< rad
    std::optional<mark::PixelPoint> principal;
    std::optional<double> uPrincipal;  ///< px
};

struct OffPlane {
    KnownLength offset;                   ///< + toward the camera
    std::optional<KnownLength> distance;  ///< camera to the frame's plane; a camera frame knows it
};

enum class Quantity { Length, Diameter, Radius, Angle, Pitch, Height };

struct TaskEntry {
    std::string id;
    std::vector<std::size_t> marks;  ///< one, or two for `between`
    Quantity quantity = Quantity::Length;
    std::optional<OffPlane> offPlane;
    /// Three points of the known plane that the marks lie in (camera), inches.
    std::optional<std::array<Eigen::Vector3d, 3>> plane;
};

struct Task {
    int page = 1;
    std::vector<TaskMark> marks;
    std::optional<TaskFrame> frame;
    std::vector<TaskEntry> entries;
    std::string unit = "in";
};

/// Reads a task. Unknown keys, wrong types, missing marks, ids used twice, numbers that are not
/// finite and values that cannot be read are each refused with their JSON pointer.
[[nodiscard]] Result<Task> parseTask(std::string_view json, const LengthReader& readLength);

}  // namespace imaging::task

#pragma once

#include "imaging/mark/mark.h"
#include "imaging/refusal.h"
#include "imaging/task/length_text.h"

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

struct TaskFrame {
    std::string model;
    std::vector<TaskReference> references;
    Printed print;
    double parallelWithin = 0;  ///< rad
};

struct OffPlane {
    KnownLength offset;    ///< + toward the camera
    KnownLength distance;  ///< camera to the frame's plane
};

enum class Quantity { Length, Diameter, Radius, Angle };

struct TaskEntry {
    std::string id;
    std::vector<std::size_t> marks;  ///< one, or two for `between`
    Quantity quantity = Quantity::Length;
    std::optional<OffPlane> offPlane;
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

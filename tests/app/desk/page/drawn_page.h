#pragma once

#include "app/desk/analyst.h"
#include "app/desk/open_register.h"
#include "app/desk/selection.h"
#include "tests/support/scratch_folder.h"

#include <opencv2/core/mat.hpp>

#include <filesystem>
#include <memory>

/// Pages with known edges, and a register in which one lies.
namespace tests::app::page {

/// A bar: dark on light ground, its edges between pixels at −½ + whole numbers.
struct Bar {
    int left = 0;
    int top = 0;
    int width = 0;
    int height = 0;
};

/// A page of `width` × `height` px with dark bars, softened by a blur of 1 px (which moves no
/// edge) and a little seeded noise.
[[nodiscard]] cv::Mat pageWithBars(int width, int height, const std::vector<Bar>& bars);
/// A dark disc on light ground, the same way.
[[nodiscard]] cv::Mat pageWithDisc(int width, int height, double x, double y, double radius);

void writePage(const std::filesystem::path& file, const cv::Mat& pixels);

/// A register with what the desk needs around it.
struct Desk {
    explicit Desk(const std::filesystem::path& folder);

    /// Takes a picture in; its page is then chosen.
    void takeIn(const std::filesystem::path& file);
    /// Waits until the analysis of the register as it is has come.
    void waitUntilJudged();

    std::unique_ptr<::app::desk::OpenRegister> open;
    std::unique_ptr<::app::desk::Analyst> analyst;
    std::unique_ptr<::app::desk::Selection> selection;
};

}  // namespace tests::app::page

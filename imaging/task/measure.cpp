#include "imaging/task/measure.h"

#include "imaging/mark/mark.h"
#include "imaging/raster/grey_image.h"
#include "imaging/raster/raster.h"
#include "imaging/task/answer.h"
#include "imaging/task/lens_of_task.h"
#include "imaging/task/quantities.h"
#include "imaging/task/task.h"

#include <fmt/format.h>

namespace imaging::task {
namespace {

/// On a photograph in perspective a circle's rim is an ellipse: with five points or more it is
/// fitted as what it shows.
mark::MarkRequest requestOf(const Task& task, std::size_t mark) {
    mark::MarkRequest request = task.marks[mark].request;
    const bool perspective = task.frame && (task.frame->model == FrameModel::Plane ||
                                            task.frame->model == FrameModel::Camera);
    if (perspective && request.kind == mark::MarkKind::Circle && request.fit != mark::Fit::None &&
        request.points.size() >= 5) {
        request.kind = mark::MarkKind::Ellipse;
    }
    return request;
}

}  // namespace

Result<std::string> measure(const std::filesystem::path& image, std::string_view taskJson,
                            const LengthReader& readLength, const raster::Budget& budget) {
    const auto task = parseTask(taskJson, readLength);
    if (!task) {
        return tl::unexpected(task.error());
    }
    const auto page = raster::decodePage(image, task->page, budget);
    if (!page) {
        return tl::unexpected(page.error());
    }
    const raster::GreyImage grey = raster::toGrey(*page);
    std::vector<mark::FittedMark> marks;
    for (std::size_t i = 0; i < task->marks.size(); ++i) {
        auto fitted = mark::fitMark(grey, requestOf(*task, i));
        if (!fitted) {
            Refusal refusal = fitted.error();
            refusal.place = fmt::format("/marks/{}{}", i, refusal.place);
            refusal.help = fmt::format("mark \"{}\": {}", task->marks[i].id, refusal.help);
            return tl::unexpected(std::move(refusal));
        }
        marks.push_back(*std::move(fitted));
    }
    std::optional<SolvedFrame> frame;
    if (task->frame) {
        const auto lens = lensOf(*task, grey, marks);
        if (!lens) {
            return tl::unexpected(lens.error());
        }
        auto solved = solveFrame(*task, marks, {grey.width(), grey.height()}, *lens);
        if (!solved) {
            return tl::unexpected(solved.error());
        }
        frame = *std::move(solved);
    }
    std::vector<Answer> answers;
    for (std::size_t i = 0; i < task->entries.size(); ++i) {
        auto answer = answerEntry(*task, i, marks, *frame);
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        answers.push_back(*std::move(answer));
    }
    return answerJson(*task, marks, frame, answers);
}

}  // namespace imaging::task

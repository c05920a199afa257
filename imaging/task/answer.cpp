#include "imaging/task/answer.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <charconv>

namespace imaging::task {
namespace {

using Json = nlohmann::ordered_json;

/// A number rounded to 12 significant digits, so that it prints with no more.
double rounded(double value) {
    const std::string text = fmt::format("{:.11e}", value);
    double result = value;
    std::from_chars(text.data(), text.data() + text.size(), result);
    return result;
}

Json numberOrNull(const std::optional<double>& value) {
    return value ? Json(rounded(*value)) : Json(nullptr);
}

template <class Matrix>
Json matrixJson(const Matrix& matrix) {
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
        Json row = Json::array();
        for (Eigen::Index j = 0; j < matrix.cols(); ++j) {
            row.push_back(rounded(matrix(i, j)));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Json pointJson(const mark::PixelPoint& p) {
    return Json::array({rounded(p.x()), rounded(p.y())});
}

Json markJson(const TaskMark& asked, const mark::FittedMark& fitted) {
    Json points = Json::array();
    for (const auto& p : fitted.points) {
        points.push_back(pointJson(p));
    }
    Json json = {{"id", asked.id},
                 {"points", points},
                 {"covariance", matrixJson(fitted.covariance)},
                 {"rms_px", rounded(fitted.rmsPx)},
                 {"used", fitted.used},
                 {"made", fitted.made == mark::Fit::None ? "picked" : mark::fitName(fitted.made)}};
    if (fitted.circle) {
        json["fit"] = {{"centre", pointJson(fitted.circle->centre)},
                       {"radius", rounded(fitted.circle->radius)},
                       {"covariance", matrixJson(fitted.circle->covariance)}};
    }
    if (fitted.widthPx) {
        json["width_px"] = rounded(*fitted.widthPx);
    }
    return json;
}

Json frameJson(const Task& task, const SolvedFrame& frame) {
    const TaskFrame& asked = *task.frame;
    Json json = {
        {"model", asked.model},
        {"inches_per_pixel", rounded(frame.scale.value)},
        {"u_relative", rounded(frame.uScale / frame.scale.value)},
        {"rms_px", rounded(frame.fit.rmsPx)},
        {"parameters", Json::array({"inches_per_pixel"})},
        {"covariance", Json::array({Json::array({rounded(frame.uScale * frame.uScale)})})}};
    Json references = Json::array();
    for (std::size_t i = 0; i < asked.references.size(); ++i) {
        const frame::ScaleResidual& r = frame.fit.residuals[i];
        references.push_back({{"mark", task.marks[asked.references[i].mark].id},
                              {"residual", rounded(r.residual)},
                              {"w", numberOrNull(r.w)},
                              {"mde", numberOrNull(r.mde)}});
    }
    json["references"] = references;
    if (asked.model == "uniform") {
        json["chi2"] = rounded(frame.fit.chi2);
        json["redundancy"] = frame.fit.redundancy;
    }
    if (!frame.notes.empty()) {
        json["notes"] = frame.notes;
    }
    return json;
}

}  // namespace

std::string answerJson(const Task& task, const std::vector<mark::FittedMark>& marks,
                       const std::optional<SolvedFrame>& frame,
                       const std::vector<Answer>& answers) {
    Json json;
    json["frame"] = frame ? frameJson(task, *frame) : Json(nullptr);
    json["marks"] = Json::array();
    for (std::size_t i = 0; i < marks.size(); ++i) {
        json["marks"].push_back(markJson(task.marks[i], marks[i]));
    }
    json["results"] = Json::array();
    for (const Answer& answer : answers) {
        json["results"].push_back({{"id", answer.id},
                                   {"value", rounded(answer.value)},
                                   {"u", rounded(answer.u)},
                                   {"low95", rounded(answer.low95)},
                                   {"high95", rounded(answer.high95)},
                                   {"unit", answer.unit}});
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace imaging::task
